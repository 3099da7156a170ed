-- Every ball that counts, once, out of any number of tables of contacts (`files`, all of it text): of two lines about one ball the one with
-- more changes holds; what was taken back, and what another page counted at the same time, counts nowhere. The same for DuckDB and Spark SQL.
SELECT squad, substr(practice_start, 1, 7) AS month, count(nullif(good, '')) AS tries,
       sum(CAST(nullif(good, '') AS INTEGER)) AS good
FROM (
  SELECT *, row_number() OVER (PARTITION BY id ORDER BY CAST(rev AS BIGINT) DESC, stands) AS nth FROM files
) AS all_lines
WHERE nth = 1 AND stands = '1' AND beside = '0'
GROUP BY squad, substr(practice_start, 1, 7)
ORDER BY squad, month
