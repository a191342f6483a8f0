#include "oils/books/draw.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "core/units/error.hpp"
#include "oils/books/journal.hpp"
#include "oils/books/shelf_writer.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {
namespace {

constexpr double kNothing = 0.005;  // g: below what the books write

bool sooner(const Lot& a, const Lot& b) {
  if (a.best_before.empty() || b.best_before.empty())
    return !a.best_before.empty() && b.best_before.empty();
  return a.best_before < b.best_before;
}

/// The lots of an oil in the order they are taken from.
std::vector<std::size_t> order_for(const Shelf& shelf, const std::string& part,
                                   const std::string& oil, const LotChoice& chosen) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < shelf.lots.size(); ++i) {
    if (shelf.lots[i].oil == oil) out.push_back(i);
  }
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    return sooner(shelf.lots[a], shelf.lots[b]);
  });
  auto choice = chosen.find(part + "/" + oil);
  if (choice == chosen.end()) choice = chosen.find(oil);
  if (choice == chosen.end()) return out;
  const auto found = std::find_if(
      out.begin(), out.end(), [&](std::size_t i) { return shelf.lots[i].lot == choice->second; });
  if (found == out.end()) {
    std::vector<std::string> known;
    for (const std::size_t i : out) known.push_back("'" + shelf.lots[i].lot + "'");
    throw core::InputError({shelf.file, out.empty() ? 0 : shelf.lots[out[0]].place.line, 0},
                           fmt::format("the shelf holds no lot '{}' of {}", choice->second, oil),
                           known.empty()
                               ? fmt::format("It holds no {} at all.", oil)
                               : fmt::format("Lots of {} here: {}.", oil, yaml::one_of(known)));
  }
  std::rotate(out.begin(), found, found + 1);
  return out;
}

[[noreturn]] void not_enough(const Shelf& shelf, const std::string& oil, double wanted,
                             double there, const std::vector<std::size_t>& lots) {
  if (lots.empty())
    throw core::InputError(
        {shelf.file, 0, 0},
        fmt::format("the shelf holds no {}: {} g are to be drawn", oil, written_grams(wanted)),
        "Receive it first ('barwright shelf receive'), or correct the shelf.");
  double kept = 0;
  for (const std::size_t i : lots) kept += shelf.lots[i].keep_grams;
  const core::Place& place = shelf.lots[lots.back()].place;
  throw core::InputError(
      place,
      fmt::format("{} would be drawn below zero: {} g wanted, {} g there{}", oil,
                  written_grams(wanted), written_grams(there),
                  kept > 0 ? fmt::format(" beside {} g kept back", written_grams(kept)) : ""),
      fmt::format("{} g are missing. Type in the weights as they were ('--weighed'), receive what "
                  "came in, or correct 'have'.",
                  written_grams(wanted - there)));
}

}  // namespace

std::vector<Draw> draws(const Shelf& shelf, std::span<const Wanted> wanted,
                        const LotChoice& chosen) {
  std::vector<double> left;
  for (const Lot& lot : shelf.lots) left.push_back(std::max(0.0, lot.grams - lot.keep_grams));
  for (const auto& [name, lot] : chosen) {
    const std::size_t slash = name.find('/');
    const std::string part = slash == std::string::npos ? "" : name.substr(0, slash);
    const std::string oil = slash == std::string::npos ? name : name.substr(slash + 1);
    if (!shelf.library.find(oil) && !shelf.kind_of(oil)) continue;  // it stands on no shelf
    order_for(shelf, part, oil, chosen);
  }
  std::vector<Draw> out;
  for (std::size_t w = 0; w < wanted.size(); ++w) {
    const auto lots = order_for(shelf, wanted[w].part, wanted[w].oil, chosen);
    double open = wanted[w].grams;
    for (const std::size_t i : lots) {
      const double take = std::min(open, left[i]);
      if (take <= kNothing) continue;
      left[i] -= take;
      open -= take;
      out.push_back({i, w, take});
    }
    if (open > kNothing) {
      double all = 0, there = 0;
      for (const Wanted& each : wanted) {
        if (each.oil == wanted[w].oil) all += each.grams;
      }
      for (const std::size_t i : lots)
        there += std::max(0.0, shelf.lots[i].grams - shelf.lots[i].keep_grams);
      not_enough(shelf, wanted[w].oil, all, there, lots);
    }
  }
  return out;
}

std::vector<std::size_t> use_up_order(const Shelf& shelf) {
  std::vector<std::size_t> out(shelf.lots.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) {
    return sooner(shelf.lots[a], shelf.lots[b]);
  });
  return out;
}

}  // namespace barwright::oils
