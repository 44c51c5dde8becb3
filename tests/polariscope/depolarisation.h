/* SPDX-License-Identifier: MIT */
/* Written by depolarisation.py: mean S1 / S0 behind N random plates, and its standard
 * error. */
enum { DEPOLARISATION_ROWS = 5 };
static const struct {
    int layers;
    double polarised, error;
} DEPOLARISATION[DEPOLARISATION_ROWS] = {
    {1, 0.57367, 0.00069},
    {2, 0.32889, 0.00087},
    {5, 0.06241, 0.00091},
    {20, -0.00078, 0.00091},
    {100, -0.00011, 0.00091},
};
