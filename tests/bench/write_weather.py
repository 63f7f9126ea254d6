# SPDX-License-Identifier: MIT
"""Writes invented weather for timing the readers: an hourly table as CSV, or a saved answer of hours as JSON.

Usage: write_weather.py csv YEARS > FILE       about 250 kB a year
       write_weather.py json YEARS > FILE      about 270 kB a year
"""
import datetime
import json
import math
import random
import sys


def hours(years):
    """Stamp, air in Celsius, rain in mm and humidity in percent of every hour; waves and noise, no station's weather."""
    noise = random.Random(11)
    start = datetime.datetime(2026 - years, 1, 1)
    count = (datetime.datetime(2026, 1, 1) - start) // datetime.timedelta(hours=1)
    for i in range(count):
        at = start + datetime.timedelta(hours=i)
        wave = -10.0 * math.cos(2 * math.pi * i / 8766.0) - 5.0 * math.cos(2 * math.pi * (i - 3) / 24.0)
        air = 13.0 + wave + noise.uniform(-1.0, 1.0)
        rain = 1.2 if noise.random() > 0.95 else 0.0
        yield at, round(air, 1), rain, round(noise.uniform(40.0, 90.0))


def write_csv(years):
    print("timestamp,air_temperature_c,precipitation_mm,relative_humidity")
    for at, air, rain, humidity in hours(years):
        print(f"{at:%Y-%m-%d %H:%M},{air},{rain},{humidity}")


def write_json(years):
    times, airs, rains, humidities = [], [], [], []
    for at, air, rain, humidity in hours(years):
        times.append(f"{at:%Y-%m-%dT%H:%M}")
        airs.append(air)
        rains.append(rain)
        humidities.append(humidity)
    units = {"time": "iso8601", "temperature_2m": "\u00b0C", "precipitation": "mm", "relative_humidity_2m": "%"}
    answer = {"latitude": 40.0, "longitude": -86.0, "generationtime_ms": 1.0, "utc_offset_seconds": 0, "timezone": "GMT",
              "timezone_abbreviation": "GMT", "elevation": 200.0, "hourly_units": units,
              "hourly": {"time": times, "temperature_2m": airs, "precipitation": rains, "relative_humidity_2m": humidities}}
    json.dump(answer, sys.stdout, separators=(",", ":"), ensure_ascii=False)


{"csv": write_csv, "json": write_json}[sys.argv[1]](int(sys.argv[2]))
