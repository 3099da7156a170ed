"""A club's tables read by an engine for tables: union, each ball once, rates by squad and month, held against the app's own totals.

    python club.py duckdb|spark FOLDER TOTALS

FOLDER has the tables (`squad=…/….csv`), TOTALS the lines `squad,month,tries,good` that `made` printed. Ends with 1 where a total differs.
"""

import resource
import sys
import time
from pathlib import Path

SQL = (Path(__file__).parent / "balls.sql").read_text()


def by_duckdb(folder):
    import duckdb

    duckdb.execute(
        "CREATE VIEW files AS SELECT * FROM read_csv(?, header=true, all_varchar=true, hive_partitioning=true)".replace(
            "?", "'" + str(folder).replace("'", "''") + "/*/*.csv'"
        )
    )
    return duckdb.sql(SQL).fetchall()


def by_spark(folder):
    from pyspark.sql import SparkSession

    spark = SparkSession.builder.master("local[2]").config("spark.ui.enabled", "false").getOrCreate()
    spark.sparkContext.setLogLevel("ERROR")
    lines = spark.read.options(header=True, multiLine=True, escape='"', nullValue="\0").csv(str(folder))
    lines.createOrReplaceTempView("files")
    rows = [tuple(row) for row in spark.sql(SQL).collect()]
    spark.stop()
    return rows


def main():
    engine, folder, totals = sys.argv[1:]
    expected = {}
    for line in Path(totals).read_text().split():
        squad, month, tries, good = line.split(",")
        expected[squad, month] = (int(tries), int(good))
    began = time.monotonic()
    found = {(squad, month): (tries, good) for squad, month, tries, good in globals()[f"by_{engine}"](folder)}
    took = time.monotonic() - began
    n_files = sum(1 for _ in Path(folder).glob("*/*.csv"))
    if not expected or found != expected:
        differing = [(key, found.get(key), expected.get(key)) for key in {*found, *expected} if found.get(key) != expected.get(key)]
        print(f"{engine}: {len(differing)} totals differ, such as {differing[:3]}")
        return 1
    tries = sum(tries for tries, _ in expected.values())
    # Of this process; Spark works in another one.
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
    print(
        f"{engine}: {n_files} files, {len(expected)} totals of {tries} tries as the app's own, in {took:.1f} s, at most {memory:.1f} GB"
    )
    return 0


sys.exit(main())
