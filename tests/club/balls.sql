-- Every ball that counts, once, out of any number of tables of contacts (`files`, all of it text): of the lines about one ball the one whose
-- correction ranks highest holds, and it stands if the line says so whose taking back ranks highest. What another page counted at the same
-- time counts nowhere. The same for DuckDB and Spark SQL.
SELECT squad, substr(practice_start, 1, 7) AS month, count(nullif(good, '')) AS tries,
       sum(CAST(nullif(good, '') AS INTEGER)) AS good
FROM (
  SELECT *, row_number() OVER (PARTITION BY id ORDER BY coalesce(corrected, '') DESC) AS nth,
         first_value(stands) OVER (PARTITION BY id ORDER BY coalesce(taken, '') DESC) AS counts
  FROM files
) AS all_lines
WHERE nth = 1 AND counts = '1' AND beside = '0'
GROUP BY squad, substr(practice_start, 1, 7)
ORDER BY squad, month
