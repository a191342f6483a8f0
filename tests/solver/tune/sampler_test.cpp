// The sampler beside laws that are known: closed forms, and integrals added up.
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "solver/tune/latent.hpp"
#include "solver/tune/settled.hpp"
#include "solver/tune/slice.hpp"

using namespace barwright::tune;

namespace {

struct Moments {
  double mean = 0, variance = 0;
};

Moments moments(const std::vector<double>& values) {
  Moments out;
  const auto n = static_cast<double>(values.size());
  for (const double v : values) out.mean += v / n;
  for (const double v : values) out.variance += (v - out.mean) * (v - out.mean) / n;
  return out;
}

// Runs of one kind of step; one column of draws per unknown, runs one after the other.
template <typename Step>
std::vector<std::vector<std::vector<double>>> runs(std::size_t unknowns, std::size_t draws,
                                                   const LogLikelihood& likelihood, Step&& step) {
  std::vector<std::vector<std::vector<double>>> out(unknowns);
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Dice dice(seed);
    Stand stand;
    for (std::size_t i = 0; i < unknowns; ++i) stand.at.push_back(2 * dice.normal());
    stand.log_likelihood = likelihood(stand.at);
    for (auto& column : out) column.emplace_back();
    for (std::size_t d = 0; d < draws + draws / 5; ++d) {
      step(stand, dice);
      if (d < draws / 5) continue;
      for (std::size_t i = 0; i < unknowns; ++i) out[i].back().push_back(stand.at[i]);
    }
  }
  return out;
}

// Log of the share of a normal law between two figures, low < high; exact in the tails.
double log_normal_between(double low, double high) {
  // By symmetry both ends are brought to the side where tails are small numbers.
  if (low + high < 0) {
    const double flipped = -low;
    low = -high;
    high = flipped;
  }
  const double share = normal_share(-low) - normal_share(-high);
  constexpr double kLeast = 1e-300;
  return std::log(std::max(share, kLeast));
}

std::vector<double> joined(const std::vector<std::vector<double>>& rows) {
  std::vector<double> out;
  for (const auto& row : rows) out.insert(out.end(), row.begin(), row.end());
  return out;
}

}  // namespace

TEST_CASE("the laws behind the unknowns are what they are called") {
  for (const double z : {-3.0, -1.0, -0.2, 0.0, 0.4, 1.7, 4.0}) {
    CAPTURE(z);
    // The place of z in each law has the same share below it.
    CHECK(1 - student4_above(student4(z)) == Approx(normal_share(z)).margin(1e-9));
    const double h = half_normal(z);
    CHECK(normal_of_student4(student4(z)) == Approx(z).margin(1e-7));
    CHECK(2 * normal_share(h) - 1 == Approx(normal_share(z)).margin(1e-9));
    CHECK(std::exp(log_normal_between(z, z + 0.5)) ==
          Approx(normal_share(z + 0.5) - normal_share(z)).epsilon(1e-9));
  }
  // 2.132 at 95 % and 2.776 at 97.5 %: printed tables of Student's t, 4 degrees of freedom
  // (recalled).
  CHECK(student4_above(2.132) == Approx(0.05).margin(5e-5));
  CHECK(student4_above(2.776) == Approx(0.025).margin(5e-5));
  CHECK(std::isfinite(log_normal_between(30, 31)));
  // The density adds up to the share.
  double sum = 0;
  for (int i = 0; i < 20000; ++i) sum += std::exp(log_student4_density((i + 0.5) * 1e-3)) * 1e-3;
  CHECK(sum == Approx(0.5 - student4_above(20)).margin(1e-6));
}

TEST_CASE("dice of gamma have its mean and variance") {
  Dice dice(3);
  std::vector<double> drawn;
  for (int i = 0; i < 40000; ++i) drawn.push_back(dice.gamma(7.5));
  const Moments found = moments(drawn);
  CHECK(found.mean == Approx(7.5).margin(4 * std::sqrt(7.5 / 40000)));
  CHECK(found.variance == Approx(7.5).epsilon(0.05));
}

TEST_CASE("both kinds of step find a normal posterior that is known in closed form") {
  // Two unknowns, one measured sum 1.5 of spread 0.3 and one measured first unknown 1 of spread 1:
  // precision [[1 + 1/0.09 + 1, 1/0.09], [1/0.09, 1 + 1/0.09]].
  const LogLikelihood likelihood = [](std::span<const double> z) {
    const double a = (1.5 - z[0] - z[1]) / 0.3, b = 1 - z[0];
    return -(a * a + b * b) / 2;
  };
  const double k = 1 / 0.09;
  const double p00 = 2 + k, p11 = 1 + k, det = p00 * p11 - k * k;
  const double r0 = 1.5 * k + 1, r1 = 1.5 * k;
  const double mean0 = (p11 * r0 - k * r1) / det, mean1 = (p00 * r1 - k * r0) / det;
  // A fit that is off on purpose: right draws must not rest on it.
  const double c = std::sqrt(0.5);
  const Fit fit{{{c, c}, {c, -c}}, {c * 1.5 + 0.1, 0.3}, {0.3, 1.2}};
  for (const bool fitted : {false, true}) {
    CAPTURE(fitted);
    const auto drawn = runs(2, 6000, likelihood, [&](Stand& stand, Dice& dice) {
      if (!fitted) return elliptical_step(stand, likelihood, {}, dice);
      fitted_step(stand, likelihood, fit, dice);
      crossing_step(stand, likelihood, fit, dice);
    });
    const Agreement first = agreement(drawn[0]), second = agreement(drawn[1]);
    CHECK(first.r_hat < 1.01);
    CHECK(first.effective > 400);
    const Moments m0 = moments(joined(drawn[0])), m1 = moments(joined(drawn[1]));
    // Four standard errors of so many draws.
    CHECK(m0.mean == Approx(mean0).margin(4 * std::sqrt(p11 / det / first.effective)));
    CHECK(m1.mean == Approx(mean1).margin(4 * std::sqrt(p00 / det / second.effective)));
    CHECK(m0.variance == Approx(p11 / det).epsilon(4 * std::sqrt(2 / first.effective)));
    CHECK(m1.variance == Approx(p00 / det).epsilon(4 * std::sqrt(2 / second.effective)));
  }
}

TEST_CASE("a question of order is answered as the integral added up says") {
  // "More" said three times of two unknowns' difference, "no difference" once: probit.
  const LogLikelihood likelihood = [](std::span<const double> z) {
    const double d = (z[0] - z[1]) / 0.7;
    return 3 * log_normal_between(0.5 - d, 60) + log_normal_between(-0.5 - d, 0.5 - d);
  };
  double whole = 0, mean = 0, square = 0;
  for (int i = -400; i <= 400; ++i) {
    for (int j = -400; j <= 400; ++j) {
      const double z[] = {i * 0.015, j * 0.015};
      const double weight = std::exp(likelihood(z) - (z[0] * z[0] + z[1] * z[1]) / 2);
      whole += weight;
      mean += weight * z[0];
      square += weight * z[0] * z[0];
    }
  }
  mean /= whole;
  const double variance = square / whole - mean * mean;
  const double c = std::sqrt(0.5);
  const Fit fit{{{c, -c}}, {0.4}, {0.5}};  // one direction: the rest is crossed
  for (const bool fitted : {false, true}) {
    CAPTURE(fitted);
    const auto drawn = runs(2, 6000, likelihood, [&](Stand& stand, Dice& dice) {
      if (!fitted) return elliptical_step(stand, likelihood, {}, dice);
      fitted_step(stand, likelihood, fit, dice);
      crossing_step(stand, likelihood, fit, dice);
    });
    const Agreement agreed = agreement(drawn[0]);
    CHECK(agreed.r_hat < 1.01);
    const Moments found = moments(joined(drawn[0]));
    CHECK(found.mean == Approx(mean).margin(4 * std::sqrt(variance / agreed.effective)));
    CHECK(found.variance == Approx(variance).epsilon(4 * std::sqrt(2 / agreed.effective)));
  }
}

TEST_CASE("a step of some unknowns leaves the others where they were") {
  const LogLikelihood likelihood = [](std::span<const double> z) { return -z[0] * z[2]; };
  Stand stand{{0.3, -0.4, 0.5}, -0.15};
  Dice dice(5);
  const std::vector<std::size_t> block = {1};
  elliptical_step(stand, likelihood, block, dice);
  CHECK(stand.at[0] == 0.3);
  CHECK(stand.at[2] == 0.5);
  CHECK(stand.at[1] != -0.4);
}

TEST_CASE("runs that disagree, stick or wander are told from those that agree") {
  Dice dice(9);
  std::vector<std::vector<double>> good(4), apart(4), slow(4);
  for (std::size_t r = 0; r < 4; ++r) {
    double at = 0;
    for (int i = 0; i < 2000; ++i) {
      good[r].push_back(dice.normal());
      apart[r].push_back(dice.normal() + (r == 0 ? 1 : 0));
      // An autoregression of 0.9: worth (1 - 0.9) / (1 + 0.9) of its length.
      at = 0.9 * at + std::sqrt(1 - 0.81) * dice.normal();
      slow[r].push_back(at);
    }
  }
  CHECK(agreement(good).r_hat < 1.01);
  CHECK(agreement(good).effective > 6000);
  CHECK(agreement(apart).r_hat > 1.05);
  CHECK(agreement(slow).effective == Approx(8000 * 0.1 / 1.9).epsilon(0.35));
  const std::vector<std::vector<double>> still(4, std::vector<double>(100, 3.0));
  CHECK(agreement(still).r_hat == 1);
}
