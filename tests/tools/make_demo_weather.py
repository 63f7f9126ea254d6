#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Makes the invented weather of the demo: three golf courses that do not exist. Nothing here is a measurement.

Usage: make_demo_weather.py DIR        writes the CSV files into DIR, the same bytes every time

Each place has an annual wave of the daily mean, a slow and a fast first-order autoregressive anomaly (larger in
winter), a two-state Markov chain of wet and dry days with exponential amounts, and a daily range that shrinks on wet
days. Only random.random() is used, whose sequence Python promises to keep for a seed.
"""
import datetime
import math
import os
import random
import statistics
import sys

FIRST = datetime.date(2014, 6, 1)
FORECAST_FROM = datetime.date(2026, 10, 15)
FORECAST_DAYS = 10
SPIN_UP_DAYS = 200  # makes the anomalies and the soil forget their start
SEED = 20261015

# Invented climates, set by hand to look like the uplands, the piedmont and the coast at these latitudes.
COURSES = {
    "copper_heron": dict(latitude=35.6, mean=14.3, half_range=10.4, warmest=201, daily_range=12.4,
                         wet_after_dry=0.26, wet_after_wet=0.46, amount=10.5),
    "millrace_nine": dict(latitude=38.8, mean=13.3, half_range=11.8, warmest=202, daily_range=11.2,
                          wet_after_dry=0.24, wet_after_wet=0.44, amount=9.5),
    "saltmarsh_bell": dict(latitude=33.2, mean=18.7, half_range=8.9, warmest=206, daily_range=10.0,
                           wet_after_dry=0.24, wet_after_wet=0.48, amount=11.5),
}


class Dice:
    def __init__(self, name):
        self.random = random.Random(f"{SEED} {name}").random
        self.quantile = statistics.NormalDist().inv_cdf

    def normal(self):
        return self.quantile(min(max(self.random(), 1e-12), 1 - 1e-12))

    def exponential(self, mean):
        return -mean * math.log(1.0 - self.random())


def day_of_year(day):
    return day.timetuple().tm_yday


def winter(day):
    """1 in the middle of January, 0 in the middle of July."""
    return 0.5 * (1 + math.cos(2 * math.pi * (day_of_year(day) - 15) / 365.25))


def weather(course, dice):
    """Yields date, minimum, maximum (Celsius) and rain (mm), from the spin-up to the last forecast day."""
    slow = fast = 0.0
    wet = False
    day = FIRST - datetime.timedelta(SPIN_UP_DAYS)
    while day < FORECAST_FROM + datetime.timedelta(FORECAST_DAYS):
        chance = course["wet_after_wet"] if wet else course["wet_after_dry"]
        wet = dice.random() < chance * (0.9 + 0.2 * math.cos(2 * math.pi * (day_of_year(day) - 75) / 182.6))
        rain = max(0.3, dice.exponential(course["amount"])) if wet else 0.0
        slow = 0.97 * slow + math.sqrt(1 - 0.97**2) * 1.1 * dice.normal()
        fast = 0.68 * fast + math.sqrt(1 - 0.68**2) * dice.normal()
        wave = course["half_range"] * math.cos(2 * math.pi * (day_of_year(day) - course["warmest"]) / 365.25)
        mean = course["mean"] + wave + slow + fast * (1.9 + 2.6 * winter(day))
        spread = course["daily_range"] * (0.66 if wet else 1.06) * (1 + 0.16 * dice.normal())
        half = max(spread, 2.0) / 2
        yield day, mean - half, mean + half, rain
        day += datetime.timedelta(1)


def radiation(latitude, day):
    """Extraterrestrial radiation in MJ per square meter and day (FAO-56, equation 21)."""
    angle = 2 * math.pi * day_of_year(day) / 365
    distance = 1 + 0.033 * math.cos(angle)
    declination = 0.409 * math.sin(angle - 1.39)
    phi = math.radians(latitude)
    sunset = math.acos(max(-1.0, min(1.0, -math.tan(phi) * math.tan(declination))))
    return 24 * 60 / math.pi * 0.0820 * distance * (sunset * math.sin(phi) * math.sin(declination)
                                                    + math.cos(phi) * math.cos(declination) * math.sin(sunset))


def probe_readings(course, days, dice):
    """Weekly readings at 5 cm in 2026, about ten in the morning: two memories of the air, sun, a wetness effect and
    noise. Invented constants on purpose: not those of the program's estimator."""
    quick = sluggish = course["mean"]
    own_noise = 0.0
    readings = []
    for day, low, high, rain in days:
        air = (low + high) / 2
        quick += (air - quick) / 3.0
        sluggish += (air - sluggish) / 45.0
        own_noise = 0.7 * own_noise + math.sqrt(1 - 0.7**2) * 0.6 * dice.normal()
        mean = -4.4 + 0.62 * max(quick, 0) + 0.31 * sluggish + 0.2 * radiation(course["latitude"], day)
        mean += own_noise - (0.4 if rain > 5 else 0.0)
        if day.year == 2026 and day < FORECAST_FROM and day.weekday() == 1:
            minute = 9 * 60 + 30 + int(dice.random() * 13) * 5
            swing = 0.32 * (high - low) * math.cos(2 * math.pi * (minute / 60 - 16.5) / 24)
            readings.append((day, minute, mean + swing))
    return readings


def forecast(days, dice):
    """The days to come as a forecast would have seen them: errors that grow from 1 to 3 degrees, amounts blurred."""
    error = 0.0
    for lead, (day, low, high, rain) in enumerate(days):
        error = 0.7 * error + (0.7 + 0.15 * lead) * dice.normal()
        amount = rain * math.exp(0.4 * dice.normal())
        yield day, low + error, high + error, amount if amount >= 0.5 else 0.0


def fahrenheit(celsius):
    return celsius * 1.8 + 32


def us_rows(days, blank):
    yield "Date,High (F),Low (F),Rain (in)"
    for day, low, high, rain in days:
        values = ("", "", "") if day in blank else (f"{fahrenheit(high):.1f}", f"{fahrenheit(low):.1f}", f"{rain / 25.4:.2f}")
        yield f"{day.month}/{day.day}/{day.year}," + ",".join(values)


def iso_rows(days, blank):
    yield "date,tmin_c,tmax_c,rain_mm"
    for day, low, high, rain in days:
        yield f"{day.isoformat()},{low:.1f},{high:.1f}," + ("" if day in blank else f"{rain:.1f}")


def comma_rows(days, blank):
    yield "Date;Tmin (°C);Tmax (°C);Rain (mm)"
    for day, low, high, rain in days:
        values = ["", "", ""] if day in blank else [f"{value:.1f}".replace(".", ",") for value in (low, high, rain)]
        yield f"{day.day:02}.{day.month:02}.{day.year};" + ";".join(values)


def days_from(year, month, day, count):
    return {datetime.date(year, month, day) + datetime.timedelta(i) for i in range(count)}


# Per course: how rows are written, days left out altogether, days whose fields are blank.
FILES = {
    "copper_heron": (us_rows, set(), days_from(2026, 8, 22, 2) | days_from(2019, 1, 30, 1)),
    "millrace_nine": (iso_rows, days_from(2026, 6, 23, 6), days_from(2026, 9, 9, 1)),
    "saltmarsh_bell": (comma_rows, days_from(2021, 9, 14, 2), days_from(2026, 7, 19, 1)),
}


def write(folder, name, rows):
    with open(os.path.join(folder, name), "w", encoding="utf-8", newline="\n") as file:
        file.writelines(row + "\n" for row in rows)


def main(folder):
    for name, course in COURSES.items():
        days = list(weather(course, Dice(name)))
        rows, absent, blank = FILES[name]
        history = [d for d in days if FIRST <= d[0] < FORECAST_FROM and d[0] not in absent]
        coming = [d for d in days if d[0] >= FORECAST_FROM]
        write(folder, f"{name}.csv", rows(history, blank))
        write(folder, f"{name}_forecast.csv", rows(forecast(coming, Dice(name + " forecast")), set()))
        if name == "copper_heron":
            readings = probe_readings(course, days, Dice(name + " probe"))
            write(folder, f"{name}_probe.csv", ["Date,Time,Soil 5 cm (F)"] + [
                f"{day.month}/{day.day}/{day.year},{minute // 60}:{minute % 60:02},{fahrenheit(soil):.1f}"
                for day, minute, soil in readings])


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: make_demo_weather.py DIR")
    main(sys.argv[1])
