#include "core/bench/temperature_solid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace barwright::core {

namespace {

constexpr double kOffset = 10;        // C, fitted
constexpr double kMismatch = 4;       // C per carbon of spread, fitted
constexpr double kEnthalpyFit = 1.5;  // fitted
constexpr double kGas = 0.008314;     // kJ/mol K
constexpr double kIce = 273.15;

/// A plain triglyceride: melting point, C, and heat of melting, kJ/mol, of the beta prime form;
/// recalled (handbooks of lipids), rounded.
struct Plain {
  double celsius;
  double kilojoules;
};

Plain plain(const AcidFacts& acid) {
  struct Saturated {
    int carbons;
    Plain plain;
  };
  static constexpr auto kSaturated = std::to_array<Saturated>({{4, {-75, 20}},
                                                               {6, {-45, 30}},
                                                               {8, {-20, 40}},
                                                               {10, {15, 60}},
                                                               {12, {35, 86}},
                                                               {14, {46, 106}},
                                                               {16, {56, 126}},
                                                               {17, {60, 138}},
                                                               {18, {64, 150}},
                                                               {20, {69, 170}},
                                                               {22, {74, 190}},
                                                               {24, {78, 210}}});
  if (acid.hydroxyls > 0) return {-20, 60};  // castor stays liquid well below zero
  if (acid.double_bonds == 0) {
    for (const auto& one : kSaturated) {
      if (one.carbons >= acid.carbons) return one.plain;
    }
    return kSaturated.back().plain;
  }
  if (acid.acid == FattyAcid::C18_1t) return {15, 100};
  const double longer = std::max(0, acid.carbons - 18);
  if (acid.double_bonds == 1) return {-10 + 5 * longer, 80};
  return {acid.double_bonds == 2 ? -25.0 : -35.0, 60};
}

/// Equilibrium between crystal and melt of one triglyceride: how much and where it melts.
struct Triglyceride {
  double moles = 0;
  double celsius = 0;
  double kilojoules = 0;
};

void add_fat(const MeltingFat& fat, std::vector<Triglyceride>& out) {
  struct Chain {
    double moles;
    int carbons;
    Plain plain;
  };
  std::vector<Chain> chains;
  double sum = 0;
  for (const auto& facts : acid_facts()) {
    const double mass = at(fat.acids, facts.acid);
    if (mass < 0.005) continue;  // traces multiply the work and move nothing
    chains.push_back({mass / molar_mass(facts.acid), facts.carbons, plain(facts)});
    sum += chains.back().moles;
  }
  for (std::size_t i = 0; i < chains.size(); ++i) {
    for (std::size_t j = i; j < chains.size(); ++j) {
      for (std::size_t k = j; k < chains.size(); ++k) {
        const double ways = i == k ? 1 : i == j || j == k ? 3 : 6;
        const Chain &a = chains[i], &b = chains[j], &c = chains[k];
        const double mean = (a.carbons + b.carbons + c.carbons) / 3.0;
        const double spread = std::sqrt(((a.carbons - mean) * (a.carbons - mean) +
                                         (b.carbons - mean) * (b.carbons - mean) +
                                         (c.carbons - mean) * (c.carbons - mean)) /
                                        3);
        Triglyceride one;
        one.moles = fat.share * ways * a.moles * b.moles * c.moles / (sum * sum * sum);
        one.celsius = (a.plain.celsius + b.plain.celsius + c.plain.celsius) / 3 - kOffset -
                      kMismatch * spread;
        one.kilojoules =
            kEnthalpyFit * (a.plain.kilojoules + b.plain.kilojoules + c.plain.kilojoules) / 3;
        out.push_back(one);
      }
    }
  }
}

/// Crystal over melt of one triglyceride, mole fractions.
double favour(const Triglyceride& one, double celsius) {
  return std::exp(one.kilojoules / kGas * (1 / (celsius + kIce) - 1 / (one.celsius + kIce)));
}

double solid_of(std::span<const Triglyceride> all, double celsius) {
  double total = 0;
  for (const auto& one : all) total += one.moles;
  if (!(total > 0)) return 0;
  const auto balance = [&](double solid) {
    double sum = 0;
    for (const auto& one : all) {
      const double k = favour(one, celsius);
      sum += one.moles / total * (k - 1) / (1 + solid * (k - 1));
    }
    return sum;
  };
  if (balance(0) <= 0) return 0;
  if (balance(1) >= 0) return 1;
  double low = 0, high = 1;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (balance(middle) > 0 ? low : high) = middle;
  }
  return low;
}

}  // namespace

double solid_share(std::span<const MeltingFat> fats, double celsius) {
  std::vector<Triglyceride> all;
  double wax = 0, share = 0;
  for (const auto& fat : fats) {
    share += fat.share;
    if (fat.wax)
      wax += fat.share;
    else
      add_fat(fat, all);
  }
  if (!(share > 0)) return 0;
  return wax / share + (1 - wax / share) * solid_of(all, celsius);
}

double celsius_of_solid_share(std::span<const MeltingFat> fats, double share) {
  double low = -30, high = 80;
  for (int step = 0; step < 40; ++step) {
    const double middle = (low + high) / 2;
    (solid_share(fats, middle) > share ? low : high) = middle;
  }
  return low;
}

double crystal_pull(const MeltingFat& fat, double celsius) {
  if (fat.wax) return std::numeric_limits<double>::infinity();
  std::vector<Triglyceride> all;
  add_fat({fat.acids, 1, false}, all);
  double pull = 0;
  for (const auto& one : all) pull += one.moles * (favour(one, celsius) - 1);
  return pull;
}

double clear_celsius(std::span<const MeltingFat> fats) {
  double low = -30, high = 80;
  for (int step = 0; step < 50; ++step) {
    const double middle = (low + high) / 2;
    double pull = 0;
    for (const auto& fat : fats) {
      if (fat.share > 0) pull += fat.share * crystal_pull(fat, middle);
    }
    (pull > 0 ? low : high) = middle;
  }
  return high;
}

}  // namespace barwright::core
