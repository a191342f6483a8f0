#include "core/lye/lye_density.hpp"

#include <array>
#include <stdexcept>

namespace barwright::core {

namespace {

constexpr auto kNaoh = std::to_array<LyeDensity>({
    {1.010, 0.957},  {1.020, 1.909},  {1.030, 2.830},  {1.040, 3.746},  {1.050, 4.631},
    {1.060, 5.536},  {1.070, 6.413},  {1.080, 7.285},  {1.090, 8.140},  {1.100, 8.970},
    {1.110, 9.796},  {1.120, 10.607}, {1.130, 11.471}, {1.140, 12.401}, {1.150, 13.303},
    {1.160, 14.190}, {1.170, 15.081}, {1.180, 16.139}, {1.190, 16.794}, {1.200, 17.629},
    {1.210, 18.618}, {1.220, 19.613}, {1.230, 20.586}, {1.240, 21.532}, {1.250, 22.476},
    {1.260, 23.433}, {1.270, 24.376}, {1.280, 25.295}, {1.290, 26.210}, {1.300, 27.110},
    {1.310, 28.105}, {1.320, 29.161}, {1.330, 30.058}, {1.340, 31.018}, {1.350, 31.948},
    {1.360, 32.930}, {1.370, 33.905}, {1.380, 34.855}, {1.390, 35.795}, {1.400, 36.720},
    {1.410, 37.674}, {1.420, 38.610}, {1.430, 39.530}, {1.440, 40.435}, {1.450, 41.335},
    {1.460, 42.400}, {1.470, 43.467}, {1.480, 44.505}, {1.490, 45.530}, {1.500, 46.545},
});

constexpr auto kKoh = std::to_array<LyeDensity>({
    {1.060, 5.59},
    {1.110, 11.31},
    {1.150, 15.48},
    {1.190, 19.29},
    {1.230, 23.22},
    {1.280, 27.87},
    {1.330, 31.32},
    {1.360, 35.01},
    {1.390, 38.59},
    {1.420, 40.97},
    {1.440, 43.83},
    {1.470, 47.16},
    {1.520, 51.09},
    {1.600, 55.62},
    {1.680, 60.98},
    {1.780, 67.65},
    {1.880, 75.74},
    {2.000, 86.22},
});

/// y at x between the lines of the table, from (x0, y0) of plain water.
template <typename X, typename Y>
double between(Alkali alkali, double at, X x, Y y) {
  LyeDensity below{1, 0};
  for (const auto& line : lye_density_table(alkali)) {
    if (at <= x(line)) {
      if (at < x(below)) break;
      return y(below) + (at - x(below)) / (x(line) - x(below)) * (y(line) - y(below));
    }
    below = line;
  }
  throw std::out_of_range("lye strength or density outside the published table");
}

}  // namespace

std::span<const LyeDensity> lye_density_table(Alkali alkali) {
  if (alkali == Alkali::sodium_hydroxide) return kNaoh;
  return kKoh;
}

double lye_specific_gravity(Alkali alkali, double concentration) {
  return between(
      alkali, 100 * concentration, [](const LyeDensity& line) { return line.percent; },
      [](const LyeDensity& line) { return line.specific_gravity; });
}

double lye_concentration(Alkali alkali, double specific_gravity) {
  return between(
             alkali, specific_gravity, [](const LyeDensity& line) { return line.specific_gravity; },
             [](const LyeDensity& line) { return line.percent; }) /
         100;
}

double twaddell(double specific_gravity) { return (specific_gravity - 1) * 200; }
double specific_gravity_of_twaddell(double degrees) { return 1 + degrees / 200; }
double baume(double specific_gravity, double modulus) {
  return modulus - modulus / specific_gravity;
}
double specific_gravity_of_baume(double degrees, double modulus) {
  return modulus / (modulus - degrees);
}

}  // namespace barwright::core
