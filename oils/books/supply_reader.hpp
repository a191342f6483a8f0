#pragma once

#include <string>
#include <utility>

#include "core/chemistry/alkali.hpp"
#include "oils/books/stock_kind.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// Returns "2 x 5 kg" split into 2 and "5 kg"; one pack when there is no "x". Errors: InputError.
std::pair<double, std::string> packs(const yaml::Node& node);

/// Returns how much of what is no oil one pack holds: g, of packaging the pieces. Errors:
/// InputError at the node: a volume, for no density is known; packaging that is no whole number.
double one_pack(const yaml::Node& node, const std::string& text, StockKind kind,
                const std::string& name);
/// Returns the same of all packs that a node says.
double counted(const yaml::Node& node, StockKind kind, const std::string& name);

/// Returns the strength of a jar: "99 %", or {stated: 90 %, least: 88 %, most: 91 %}. Errors:
/// InputError for one above 100 %, or so weak that it is a solution.
core::Strength read_purity(const yaml::Node& node);

}  // namespace barwright::oils
