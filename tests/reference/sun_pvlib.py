"""Sun positions and clear-day light by pvlib, as reference data for the tests.

Run in an environment of its own (Python 3.11 or later):

    python -m venv venv && venv/bin/pip install pvlib==0.16.1
    venv/bin/python sun_pvlib.py > ../data/pvlib/sun.json

The output is checked in, so that the tests need no Python. Positions come from pvlib's `spa_python` (NREL Solar Position
Algorithm); clear-day shares follow Campbell & Norman in the form of pvlib's `irradiance.campbell_norman` (beam by
transmissivity to the power of air mass, three tenths of the loss as sky light; air mass 1/cos(zenith) at 1013.25 hPa).
"""

import json

import numpy as np
import pandas as pd
import pvlib

PLACES = [  # latitude, longitude, elevation in m
    (46.3, 11.2, 250.0),
    (39.7, -105.2, 1830.0),
    (-34.2, 19.0, 300.0),
    (-41.5, 173.9, 20.0),
    (60.4, 5.3, 20.0),
    (1.3, 36.8, 1700.0),
]
TIMES = [
    "2024-03-20T06:30:00Z",
    "2024-03-20T12:00:00Z",
    "2024-06-21T04:00:00Z",
    "2024-06-21T18:15:30Z",
    "2025-09-01T09:45:00Z",
    "2025-12-21T22:00:00Z",
    "2026-02-10T15:20:10Z",
]


def points():
    out = []
    for lat, lon, elevation in PLACES:
        for time in TIMES:
            index = pd.DatetimeIndex([time])
            delta_t = float(pvlib.spa.calculate_deltat(index.year.values, index.month.values)[0])
            row = pvlib.solarposition.spa_python(
                index, lat, lon, altitude=elevation, pressure=101325, temperature=12, delta_t=delta_t, how="numpy"
            ).iloc[0]
            out.append(
                (
                    {
                        "lat_deg": lat,
                        "lon_deg_east": lon,
                        "elevation_m": elevation,
                        "time_utc": time,
                        "pressure_hpa": 1013.25,
                        "temperature_c": 12,
                        "delta_t_s": round(delta_t, 3),
                    },
                    {
                        "zenith_true_deg": round(float(row["zenith"]), 6),
                        "zenith_apparent_deg": round(float(row["apparent_zenith"]), 6),
                        "azimuth_deg_from_north_clockwise": round(float(row["azimuth"]), 6),
                        "equation_of_time_min": round(float(row["equation_of_time"]), 4),
                    },
                )
            )
    return out


def clear_day():
    zenith = np.array([0.0, 15.0, 30.0, 45.0, 60.0, 70.0, 80.0, 85.0, 89.0])
    sine = np.cos(np.radians(zenith))
    rows = []
    for z, s in zip(zenith, sine):
        got = pvlib.irradiance.campbell_norman(z, 0.7, pressure=101325.0, dni_extra=1.0)
        rows.append(
            {
                "sine_of_height": round(float(s), 12),
                "beam_normal": round(float(got["dni"]), 10),
                "beam_horizontal": round(float(got["dni"]) * float(s), 10),
                "sky_horizontal": round(float(got["dhi"]), 10),
            }
        )
    return rows


def declination():
    days = list(range(1, 366, 14))
    return [
        {"day": d, "spencer_rad": round(float(pvlib.solarposition.declination_spencer71(d)), 9)} for d in days
    ]


both = points()
print(
    json.dumps(
        {
            "schema": "sun-case/1",
            "documentation": {"made_by": f"pvlib {pvlib.__version__}, tests/reference/sun_pvlib.py"},
            "ask": {"points": [a for a, _ in both]},
            "results": {"points": [r for _, r in both]},
            "clear_day_transmissivity_0.7": clear_day(),
            "declination": declination(),
        },
        indent=1,
    )
)
