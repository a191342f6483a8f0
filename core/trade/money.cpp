#include "core/trade/money.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "core/units/error.hpp"

namespace barwright::core {
namespace {

constexpr double kMostUnits = 9e13;  // cents stay whole in a double

void check_sum(double amount) {
  if (!std::isfinite(amount) || std::abs(amount) > kMostUnits) {
    throw Refusal("A sum of money is not a number the books can hold.",
                  "Look at the prices and weights behind it.");
  }
}

/// Gives `left` cents, one each, to the largest remainders; equal ones to the first.
void hand_out(std::vector<Cents>& parts, const std::vector<double>& remainders, Cents left) {
  std::vector<std::size_t> order(parts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return remainders[a] > remainders[b] + 1e-9;
  });
  for (std::size_t i = 0; left > 0; i = (i + 1) % order.size(), --left) ++parts[order[i]];
}

}  // namespace

Cents cents(double amount) {
  check_sum(amount);
  // 1.005 is a little less in binary; what is within a millionth of a half cent counts as one.
  const double scaled = std::abs(amount) * 100;
  const auto whole = static_cast<Cents>(std::floor(scaled + 0.5 + 1e-6));
  return amount < 0 ? -whole : whole;
}

Cents cents_up(double amount) {
  check_sum(amount);
  return static_cast<Cents>(std::ceil(amount * 100 - 1e-9));
}

std::string money_text(Cents value) {
  const Cents size = value < 0 ? -value : value;
  std::string out = value < 0 ? "-" : "";
  out += std::to_string(size / 100) + '.';
  const Cents rest = size % 100;
  if (rest < 10) out += '0';
  return out + std::to_string(rest);
}

std::vector<Cents> share_out(Cents total, std::span<const double> weights) {
  double sum = 0;
  for (const double weight : weights) {
    if (!(weight >= 0) || !std::isfinite(weight)) {
      throw Refusal("A share of the money is negative or not a number.", "Look at the weights.");
    }
    sum += weight;
  }
  if (weights.empty()) throw Refusal("Money is to be shared out among nobody.", "Name the shares.");
  const bool negative = total < 0;
  const Cents whole = negative ? -total : total;
  std::vector<Cents> parts;
  std::vector<double> remainders;
  Cents given = 0;
  for (const double weight : weights) {
    const double share = sum > 0 ? weight / sum : 1 / static_cast<double>(weights.size());
    const double exact = static_cast<double>(whole) * share;
    // A share that is whole but for the arithmetic is whole.
    const double floor = std::floor(exact + 1e-9);
    parts.push_back(static_cast<Cents>(floor));
    remainders.push_back(weight > 0 || sum == 0 ? exact - floor : -1);
    given += parts.back();
  }
  hand_out(parts, remainders, whole - given);
  if (negative) {
    for (Cents& part : parts) part = -part;
  }
  return parts;
}

std::vector<Cents> rounded_together(std::span<const double> amounts) {
  std::vector<Cents> parts;
  std::vector<double> remainders;
  double sum = 0;
  Cents given = 0;
  for (const double amount : amounts) {
    check_sum(amount);
    sum += amount;
    const double floor = std::floor(amount * 100 + 1e-9);
    parts.push_back(static_cast<Cents>(floor));
    remainders.push_back(amount * 100 - floor);
    given += parts.back();
  }
  if (!parts.empty()) hand_out(parts, remainders, cents(sum) - given);
  return parts;
}

}  // namespace barwright::core
