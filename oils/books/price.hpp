#pragma once

#include <functional>
#include <string>

#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// Returns a price per kg from what a maker writes: "34.50 for 5 L", "34.50 EUR for 5 kg",
/// "6.90 per kg", "EUR 6.90 per kg". `currency` is the one all prices of the file are in;
/// `to_grams` turns the words of the pack into grams. Errors: InputError at the node.
double read_price_per_kg(const yaml::Node& node, const std::string& currency,
                         const std::function<double(const std::string&)>& to_grams);

}  // namespace barwright::oils
