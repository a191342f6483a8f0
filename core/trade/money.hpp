#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace barwright::core {

/// Money in whole hundredths of a currency's unit ("cents"); the currency is a label elsewhere.
using Cents = std::int64_t;

/// Returns the nearest whole cents of an amount in currency units, halves away from zero. Errors:
/// Refusal for what is not a number or beyond 90 million million units.
Cents cents(double amount);
/// Returns the least whole cents that are not below the amount (a billionth of a cent is forgiven).
Cents cents_up(double amount);
/// Returns currency units.
inline double units(Cents value) { return static_cast<double>(value) / 100; }
/// Returns "12.30", "-0.05".
std::string money_text(Cents value);

/// Returns one part per weight, in proportion, that add up to `total` exactly: each share rounded
/// down, the cents left over to the largest remainders, equal ones to the first (method of the
/// largest remainder, Hamilton 1792). Weights >= 0; all zero counts as all equal. Errors: Refusal
/// for no weights, or one that is negative or not a number.
std::vector<Cents> share_out(Cents total, std::span<const double> weights);
/// Returns amounts in currency units as whole cents whose sum is the rounded sum of the amounts,
/// each within a cent of its own. Errors: as above.
std::vector<Cents> rounded_together(std::span<const double> amounts);

}  // namespace barwright::core
