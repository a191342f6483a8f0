#include "oils/books/shelf.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <map>

#include "core/lye/lye.hpp"
#include "oils/records/judged_span.hpp"

namespace barwright::oils {

using core::Figure;

namespace {

constexpr double kDensityPerCelsius = 0.00068;  // g/mL per C, fat oils near room warmth (recalled)

/// Figures of several lots as one: mean by mass, a range that holds each, the weakest marks.
class Mixture {
 public:
  void add(const Figure& figure, double weight) {
    if (weight_ == 0 && count_ == 0) {
      out_ = figure;
    } else {
      out_.span.low = std::min(out_.span.low, figure.span.low);
      out_.span.high = std::max(out_.span.high, figure.span.high);
      if (figure.mark > out_.mark) {
        out_.mark = figure.mark;
        out_.source = figure.source;
      }
      if (figure.range_mark > out_.range_mark) {
        out_.range_mark = figure.range_mark;
        out_.range_source = figure.range_source;
      }
    }
    sum_ += weight * figure.span.typical;
    weight_ += weight;
    plain_ += figure.span.typical;
    ++count_;
  }
  Figure figure() const {
    Figure out = out_;
    out.span.typical = weight_ > 0 ? sum_ / weight_ : plain_ / count_;
    return out;
  }

 private:
  Figure out_;
  double sum_ = 0, weight_ = 0, plain_ = 0;
  int count_ = 0;
};

Oil mixed(const std::vector<std::pair<Oil, double>>& parts) {
  Oil out = parts.front().first;
  if (parts.size() == 1) return out;
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::string& said = parts[i].first.confirmed;
    if (said.empty() || out.confirmed.find(said) != std::string::npos) continue;
    out.confirmed += (out.confirmed.empty() ? "" : " ") + said;
  }
  Mixture saponification, iodine, unsaponifiable;
  for (const auto& [oil, grams] : parts) {
    saponification.add(oil.saponification_value, grams);
    iodine.add(oil.iodine_value, grams);
    unsaponifiable.add(oil.unsaponifiable, grams);
  }
  out.saponification_value = saponification.figure();
  out.iodine_value = iodine.figure();
  out.unsaponifiable = unsaponifiable.figure();
  for (std::size_t i = 0; i < out.acids.size(); ++i) {
    const auto named = std::find_if(parts.begin(), parts.end(), [i](const auto& part) {
      return part.first.acids[i].has_value();
    });
    if (named == parts.end()) continue;
    Figure none = *named->first.acids[i];
    none.span = {};
    Mixture acid;
    for (const auto& [oil, grams] : parts) acid.add(oil.acids[i].value_or(none), grams);
    out.acids[i] = acid.figure();
  }
  return out;
}

/// The least (or, negated, the most) that `grams` out of these lots add up to, mean mg KOH/g.
double least_of(std::vector<std::pair<double, double>> value_and_grams, double grams) {
  std::sort(value_and_grams.begin(), value_and_grams.end());
  double sum = 0, open = grams;
  for (const auto& [value, there] : value_and_grams) {
    const double take = std::min(open, there);
    sum += take * value;
    open -= take;
  }
  return sum / (grams - open);
}

/// Is a to be used before b? An early date first, no date last.
bool sooner(const std::string& a, const std::string& b) {
  if (a.empty() || b.empty()) return !a.empty() && b.empty();
  return a < b;
}

}  // namespace

std::vector<Holding> Shelf::holdings() const {
  std::map<std::string, std::vector<std::size_t>> by_oil;
  for (std::size_t i = 0; i < lots.size(); ++i) {
    if (lots[i].kind == StockKind::oil) by_oil[lots[i].oil].push_back(i);
  }
  std::vector<Holding> out;
  for (auto& [oil, indices] : by_oil) {
    const Oil* record = library.find(oil);
    if (record == nullptr) continue;  // lye, scents and the like are no oils to a search
    Holding holding;
    holding.oil = record->name;
    std::stable_sort(indices.begin(), indices.end(), [this](std::size_t a, std::size_t b) {
      return sooner(lots[a].best_before, lots[b].best_before);
    });
    std::vector<std::pair<Oil, double>> parts;
    double paid = 0, priced = 0, price_sum = 0;
    int prices = 0;
    for (const std::size_t i : indices) {
      const Lot& lot = lots[i];
      holding.grams += lot.grams;
      holding.keep_grams += lot.keep_grams;
      if (lot.price_per_kg) {
        paid += *lot.price_per_kg * lot.grams;
        priced += lot.grams;
        price_sum += *lot.price_per_kg;
        ++prices;
      } else {
        holding.unpriced_grams += lot.grams;
      }
      const double free = lot.grams - lot.keep_grams;
      if (free <= 0) continue;  // what is not there covers nothing
      Oil kind = lot.certificate ? certified(*record, *lot.certificate) : *record;
      if (!lot.confirmed.empty()) {
        kind.confirmed += (kind.confirmed.empty() ? "" : " ") + lot.confirmed;
      }
      holding.usable.push_back({free, judged_saponification(kind)});
      parts.emplace_back(std::move(kind), lot.grams);
    }
    holding.published = *record;
    if (priced > 0)
      holding.price_per_kg = paid / priced;
    else if (prices > 0)
      holding.price_per_kg = price_sum / prices;
    holding.best_before = lots[indices.front()].best_before;
    holding.lots = std::move(indices);
    holding.figures = parts.empty() ? *record : mixed(parts);
    out.push_back(std::move(holding));
  }
  return out;
}

Oil Holding::figures_for(double wanted, double elsewhere) const {
  double there = 0;
  for (const auto& lot : usable) there += lot.grams;
  const double covered = std::clamp(there - elsewhere, 0.0, wanted);
  if (!(covered > 0)) return published;
  const bool whole = covered >= wanted * (1 - 1e-9);
  if (whole && usable.size() == 1) return figures;
  std::vector<std::pair<Oil, double>> parts = {{figures, covered}};
  if (!whole) parts.emplace_back(published, wanted - covered);
  Oil out = mixed(parts);
  std::vector<std::pair<double, double>> lows, highs;
  for (const auto& lot : usable) {
    lows.emplace_back(lot.saponification_value.low, lot.grams);
    highs.emplace_back(-lot.saponification_value.high, lot.grams);
  }
  const double share = covered / wanted;
  const core::Span rest = judged_saponification(published);
  core::Span& span = out.saponification_value.span;
  span.low = share * least_of(lows, covered) + (1 - share) * rest.low;
  span.high = -share * least_of(highs, covered) + (1 - share) * rest.high;
  span.low = std::min(span.low, span.typical);
  span.high = std::max(span.high, span.typical);
  return out;
}

Oil Shelf::figures_for(std::string_view oil, double grams, double elsewhere) const {
  const auto here = holding(oil);
  return here ? here->figures_for(grams, elsewhere) : *library.find(oil);
}

std::optional<Holding> Shelf::holding(std::string_view oil) const {
  const Oil* record = library.find(oil);
  if (record == nullptr) return std::nullopt;
  for (Holding& holding : holdings())
    if (holding.oil == record->name) return std::move(holding);
  return std::nullopt;
}

std::optional<std::string> Shelf::name_of(std::string_view thing) const {
  if (const Oil* oil = library.find(thing)) return oil->name;
  const std::string wanted = folded_name(own_name(std::string(thing)));
  for (const Lot& lot : lots) {
    if (lot.kind != StockKind::oil && folded_name(lot.oil) == wanted) return lot.oil;
  }
  return std::nullopt;
}

std::optional<StockKind> Shelf::kind_of(std::string_view what) const {
  for (const Lot& lot : lots) {
    if (lot.oil == what) return lot.kind;
  }
  return std::nullopt;
}

const Lot* Shelf::other_alkali(std::string_view than) const {
  for (const Lot& lot : lots) {
    if (lot.kind == StockKind::lye && lot.oil != than) return &lot;
  }
  return nullptr;
}

double Shelf::usable_grams(std::string_view what) const {
  double out = 0;
  for (const Lot& lot : lots) {
    if (lot.oil == what) out += std::max(0.0, lot.grams - lot.keep_grams);
  }
  return out;
}

std::vector<std::size_t> Shelf::past(const std::string& date) const {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < lots.size(); ++i)
    if (!lots[i].best_before.empty() && lots[i].best_before < date) out.push_back(i);
  return out;
}

std::optional<double> density_at(const Oil& oil, double celsius) {
  if (!oil.density) return std::nullopt;
  return oil.density->span.typical - kDensityPerCelsius * (celsius - oil.density_at_celsius);
}

bool is_iso_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto part = [&text](std::size_t from, std::size_t length, int& into) {
    const char* first = text.data() + from;
    const auto result = std::from_chars(first, first + length, into);
    return result.ec == std::errc() && result.ptr == first + length && *first != '-';
  };
  int year = 0, month = 0, day = 0;
  if (!part(0, 4, year) || !part(5, 2, month) || !part(8, 2, day)) return false;
  return std::chrono::year_month_day(std::chrono::year(year),
                                     std::chrono::month(static_cast<unsigned>(month)),
                                     std::chrono::day(static_cast<unsigned>(day)))
      .ok();
}

}  // namespace barwright::oils
