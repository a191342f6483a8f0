#include "targets/model/lean.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace barwright::targets {
namespace {

constexpr double kShareOfDoubt = 0.25;
constexpr double kShareOfSize = 1.0 / 3;
constexpr std::size_t kMost = 3;

bool weak(const Constant& constant) {
  return constant.mark == core::Mark::judgement || constant.mark == core::Mark::recalled;
}

struct Bars {
  Property property;
  const Composition& bar;
  const BarSettings& bar_settings;
  const Composition& yardstick;
  const BarSettings& yardstick_settings;

  double difference(const PropertyModel& model) const {
    return model.value(property, bar, bar_settings) -
           model.value(property, yardstick, yardstick_settings);
  }
};

// Per property the variance that each constant alone gives, taking the property as straight over
// its spread. A constant of an acid that neither bar holds is left out unseen. A model with one
// constant moved costs far more than a value read off it, so each is made once for all properties.
std::vector<std::vector<double>> variances(const PropertyModel& model, std::span<const Bars> all) {
  std::vector<std::vector<double>> out(all.size(), std::vector<double>(kConstantCount, 0.0));
  if (all.empty()) return out;
  const Bars& bars = all.front();
  for (std::size_t c = 0; c < kConstantCount; ++c) {
    const Constant& constant = model.constants()[c];
    if (constant.spread.kind == Spread::Kind::none || !constant.used) continue;
    // Laurate and capric soap set scales that other acids are measured by: they are always looked
    // at.
    const bool scale = constant.acid && (*constant.acid == core::FattyAcid::C12_0 ||
                                         *constant.acid == core::FattyAcid::C10_0);
    if (constant.acid && !scale && core::at(bars.bar.acids, *constant.acid) == 0 &&
        core::at(bars.yardstick.acids, *constant.acid) == 0)
      continue;
    const PropertyModel most = model.with(c, constant.at(1));
    const PropertyModel least = model.with(c, constant.at(0));
    for (std::size_t p = 0; p < all.size(); ++p) {
      const double width = all[p].difference(most) - all[p].difference(least);
      out[p][c] = width * width / 12;  // of a uniform spread
    }
  }
  return out;
}

// Share of the difference that each acid makes, counted from the yardstick's own score.
std::vector<double> sizes(const PropertyModel& model, const Bars& bars) {
  std::vector<double> out(core::kFattyAcidCount, 0.0);
  if (!PropertyModel::has_form(bars.property)) return out;
  const PropertyForm form = model.form(bars.property, bars.bar_settings);
  const double from = form.inner(bars.yardstick);
  const double whole = form.inner(bars.bar) - from;
  if (std::abs(whole) < 1e-9) return out;
  for (std::size_t k = 0; k < out.size(); ++k)
    out[k] = (bars.bar.acids[k] - bars.yardstick.acids[k]) * (form.linear[k] - from) / whole;
  return out;
}

std::vector<Lean> leans_of(const PropertyModel& model, const Bars& bars,
                           const std::vector<double>& variance) {
  double total = 0;
  for (double v : variance) total += v;
  std::vector<Lean> out;
  if (!(total > 0)) return out;

  for (std::size_t c = 0; c < kScalarCount; ++c) {
    const Constant& constant = model.constants()[c];
    if (weak(constant) && variance[c] / total >= kShareOfDoubt)
      out.push_back(
          {std::nullopt, constant.about, constant.mark, variance[c] / total, constant.why});
  }
  const std::vector<double> size = sizes(model, bars);
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) {
    const auto acid = static_cast<core::FattyAcid>(k);
    double sum = 0, most = 0;
    const Constant* weightiest = nullptr;
    for (std::size_t t = 0; t < kTableCount; ++t) {
      const std::size_t c = index(static_cast<Table>(t), acid);
      if (!weak(model.constants()[c])) continue;
      sum += variance[c];
      if (variance[c] > most) {
        most = variance[c];
        weightiest = &model.constants()[c];
      }
    }
    if (weightiest == nullptr) continue;
    const bool by_size = size[k] > kShareOfSize && weightiest->mark == core::Mark::judgement;
    if (sum / total < kShareOfDoubt && !by_size) continue;
    out.push_back({acid, weightiest->key, weightiest->mark,
                   std::max(sum / total, by_size ? std::min(1.0, size[k]) : 0.0), weightiest->why});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Lean& a, const Lean& b) { return a.share > b.share; });
  if (out.size() > kMost) out.resize(kMost);
  return out;
}

}  // namespace

std::vector<std::vector<Lean>> leans_on(const PropertyModel& model,
                                        std::span<const Property> properties,
                                        const Composition& bar, const BarSettings& bar_settings,
                                        const Composition& yardstick,
                                        const BarSettings& yardstick_settings) {
  std::vector<Bars> all;
  for (const Property property : properties)
    all.push_back({property, bar, bar_settings, yardstick, yardstick_settings});
  const auto variance = variances(model, all);
  std::vector<std::vector<Lean>> out;
  for (std::size_t p = 0; p < all.size(); ++p) out.push_back(leans_of(model, all[p], variance[p]));
  return out;
}

std::vector<Lean> leans_on(const PropertyModel& model, Property property, const Composition& bar,
                           const BarSettings& bar_settings, const Composition& yardstick,
                           const BarSettings& yardstick_settings) {
  return leans_on(model, std::span(&property, 1), bar, bar_settings, yardstick,
                  yardstick_settings)[0];
}

std::string sentence(std::span<const Lean> leans, std::span<const NamedPart> parts) {
  std::string out;
  for (const Lean& lean : leans) {
    out += out.empty() ? "leans on " : &lean == &leans.back() ? " and " : ", ";
    const bool judged = lean.mark == core::Mark::judgement;
    if (!lean.acid) {
      out += (judged ? "our judgement of " : "a recalled figure for ") + lean.constant;
      continue;
    }
    out += std::string(judged ? "judged" : "recalled") + " figures for " +
           std::string(core::acid_facts()[static_cast<std::size_t>(*lean.acid)].key);
    const NamedPart* bringer = nullptr;
    double most = 0;
    for (const NamedPart& part : parts) {
      const double brings = part.share * core::at(part.composition.acids, *lean.acid);
      if (brings > most) {
        most = brings;
        bringer = &part;
      }
    }
    if (bringer != nullptr) out += " (" + bringer->name + ")";
  }
  return out;
}

}  // namespace barwright::targets
