#pragma once
// IEC 61672-1:2013 Table 3 (design goals, A and C) with the class 1 acceptance limits, and Table 4 (tonebursts at 4 kHz
// with class 1 limits). Typed from two independent public transcriptions that agree cell for cell; the 2002 edition's
// limits are wider because they include the measurement's uncertainty, and are not these. The clause numbers named in
// the tests are from memory.
#include <cmath>

namespace vh::test
{

struct WeightingRow {
    double nominalHz;
    double aDb;
    double cDb;
    double above; ///< class 1, dB
    double below; ///< class 1, dB, negative; -HUGE_VAL: no limit
};

inline constexpr WeightingRow kTable3[] = {
    {10, -70.4, -14.3, 3.0, -HUGE_VAL},  {12.5, -63.4, -11.2, 2.5, -HUGE_VAL}, {16, -56.7, -8.5, 2.0, -4.0},
    {20, -50.5, -6.2, 2.0, -2.0},        {25, -44.7, -4.4, 2.0, -1.5},         {31.5, -39.4, -3.0, 1.5, -1.5},
    {40, -34.6, -2.0, 1.0, -1.0},        {50, -30.2, -1.3, 1.0, -1.0},         {63, -26.2, -0.8, 1.0, -1.0},
    {80, -22.5, -0.5, 1.0, -1.0},        {100, -19.1, -0.3, 1.0, -1.0},        {125, -16.1, -0.2, 1.0, -1.0},
    {160, -13.4, -0.1, 1.0, -1.0},       {200, -10.9, 0.0, 1.0, -1.0},         {250, -8.6, 0.0, 1.0, -1.0},
    {315, -6.6, 0.0, 1.0, -1.0},         {400, -4.8, 0.0, 1.0, -1.0},          {500, -3.2, 0.0, 1.0, -1.0},
    {630, -1.9, 0.0, 1.0, -1.0},         {800, -0.8, 0.0, 1.0, -1.0},          {1000, 0.0, 0.0, 0.7, -0.7},
    {1250, 0.6, 0.0, 1.0, -1.0},         {1600, 1.0, -0.1, 1.0, -1.0},         {2000, 1.2, -0.2, 1.0, -1.0},
    {2500, 1.3, -0.3, 1.0, -1.0},        {3150, 1.2, -0.5, 1.0, -1.0},         {4000, 1.0, -0.8, 1.0, -1.0},
    {5000, 0.5, -1.3, 1.5, -1.5},        {6300, -0.1, -2.0, 1.5, -2.0},        {8000, -1.1, -3.0, 1.5, -2.5},
    {10000, -2.5, -4.4, 2.0, -3.0},      {12500, -4.3, -6.2, 2.0, -5.0},       {16000, -6.6, -8.5, 2.5, -16.0},
    {20000, -9.3, -11.2, 3.0, -HUGE_VAL}};

/// The exact frequency of row n: 10^(n/10) Hz counted from 10 Hz (IEC 61672-1:2013 Annex D/E: base-ten thirds).
inline double exactHz(int row)
{
    return std::pow(10.0, 1.0 + row / 10.0);
}

struct ToneburstRow {
    double ms;
    double fastDb;
    double exposureDb;
    double above, below; ///< class 1, for F and E
    double slowDb;       ///< 0 in the last three rows: no S requirement
    double slowAbove, slowBelow;
};

inline constexpr ToneburstRow kTable4[] = {
    {1000, 0.0, 0.0, 0.5, -0.5, -2.0, 0.5, -0.5},    {500, -0.1, -3.0, 0.5, -0.5, -4.1, 0.5, -0.5},
    {200, -1.0, -7.0, 0.5, -0.5, -7.4, 0.5, -0.5},   {100, -2.6, -10.0, 1.0, -1.0, -10.2, 1.0, -1.0},
    {50, -4.8, -13.0, 1.0, -1.0, -13.1, 1.0, -1.0},  {20, -8.3, -17.0, 1.0, -1.0, -17.0, 1.0, -1.5},
    {10, -11.1, -20.0, 1.0, -1.0, -20.0, 1.0, -2.0}, {5, -14.1, -23.0, 1.0, -1.0, -23.0, 1.0, -2.5},
    {2, -18.0, -27.0, 1.0, -1.5, -27.0, 1.0, -3.0},  {1, -21.0, -30.0, 1.0, -2.0, 0, 0, 0},
    {0.5, -24.0, -33.0, 1.0, -2.5, 0, 0, 0},         {0.25, -27.0, -36.0, 1.0, -3.0, 0, 0, 0}};

/// How far inside the limits a deviation lies, dB; negative: outside.
inline double marginOf(double deviationDb, double above, double below)
{
    return std::fmin(above - deviationDb, deviationDb - below);
}

} // namespace vh::test
