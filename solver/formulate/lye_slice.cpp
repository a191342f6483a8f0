#include "solver/formulate/lye_slice.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/chemistry/saponification.hpp"
#include "core/lye/superfat_levels.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::formulate {
namespace {

// A stretch of superfat this narrow moves no property by a hundredth of a noticeable step.
constexpr double kNarrow = 5e-4;
// A dose has more steps of the lye scale than this: one may be off by a hundredth at most.
constexpr double kFewestSteps = 10;
// Of the arithmetic of both sides, as a share of the moles.
constexpr double kSlip = 1e-9;

double moles(double grams, double value) { return grams * value / 1000 / core::kKohMolarMass; }

/// An alkali in the dose: its share of the moles, and what is in the jar.
struct DoseLine {
  double share = 0, molar = 0, stated = 1, strongest = 1;
  double grams(double dose) const { return dose * share * molar / stated; }
};

std::vector<DoseLine> dose_lines(const core::LyeSettings& settings) {
  using Choice = core::LyeSettings::Choice;
  const core::Strength naoh = strength_of(settings, core::Alkali::sodium_hydroxide);
  const core::Strength koh = strength_of(settings, core::Alkali::potassium_hydroxide);
  double potassium = settings.alkali == Choice::potassium_hydroxide ? 1 : 0;
  if (settings.alkali == Choice::mixed)
    potassium = core::koh_shares(settings.koh_share, settings.basis,
                                 {.naoh = naoh.stated, .koh = koh.stated})
                    .moles;
  std::vector<DoseLine> lines;
  const auto add = [&](core::Alkali alkali, const core::Strength& strength, double share) {
    if (share > 0)
      lines.push_back(
          {share, core::molar_mass(alkali), strength.stated, core::strongest(alkali, strength)});
  };
  add(core::Alkali::sodium_hydroxide, naoh, 1 - potassium);
  add(core::Alkali::potassium_hydroxide, koh, potassium);
  return lines;
}

double dose_at(const LyeGround& ground, double aim, double need) {
  return need * (1 - aim) + ground.corrected;
}

/// What rounding down leaves off one line of the dose, g.
struct LeftOff {
  double low = 0, high = 0;
};

/// The same, of a line of the alkali whose dose (mol in all) lies between `from` and `to`.
LeftOff left_off(const LyeGround& ground, const DoseLine& line, double from, double to) {
  const double step = ground.scales.lye.step;
  const double a = line.grams(from), b = line.grams(to);
  const double below = core::rounded_down(a, step);
  // The last grams of a stretch belong to the step they end, not to the one they touch.
  const bool one_step = b <= below + step * (1 + kSlip);
  if (!one_step) return {0, step};
  return {std::max(0.0, a - below), std::clamp(b - below, 0.0, step)};
}

double most_of(const std::vector<LyeOil>& oils, double LyeOil::*what) {
  double most = 0;
  for (const LyeOil& oil : oils) most = std::max(most, oil.*what);
  return most;
}

double least_of(const std::vector<LyeOil>& oils, double LyeOil::*what) {
  double least = optimise::kInfinity;
  for (const LyeOil& oil : oils) least = std::min(least, oil.*what);
  return least;
}

/// How far rounding the lines of the blend may move the need, mol.
double need_off(const LyeGround& ground) {
  return ground.most_lines * ground.rounded_by / ground.oil_grams *
             most_of(ground.oils, &LyeOil::need_high) +
         kSlip * most_of(ground.oils, &LyeOil::need_high);
}

optimise::Limit limit_of(const LyeGround& ground,
                         const std::function<double(const LyeOil&)>& per_share) {
  optimise::Limit limit;
  for (const LyeOil& oil : ground.oils) limit.form.linear.push_back(per_share(oil));
  return limit;
}

/// Most alkali per mol of dose, and what is to be added: errors, less what rounding leaves off (at
/// its most or its least), less acids at their least.
struct MostAlkali {
  double per_dose = 0, constant = 0;
};

MostAlkali most_alkali(const LyeGround& ground, const LyeSlice& slice, double aim, bool least) {
  MostAlkali out{0, -ground.least_acid};
  const double from = dose_at(ground, aim, slice.need_from);
  const double to = dose_at(ground, aim, slice.need_to);
  for (const DoseLine& line : dose_lines(ground.settings)) {
    const LeftOff off = left_off(ground, line, from, to);
    out.per_dose += line.share * line.strongest / line.stated;
    out.constant += (ground.scales.lye.error_grams() - (least ? off.high : off.low)) *
                    line.strongest / line.molar;
  }
  return out;
}

/// Limit that blends keep whose worst case holds at a superfat: what the fat is sure to need, less
/// the floor, covers the most alkali there may be. No error of the oils scale is counted: rounding
/// up adds no more than that takes.
optimise::Limit holds_at(const LyeGround& ground, const LyeSlice& slice, double aim) {
  const double keep = 1 - ground.settings.never_below;
  const MostAlkali most = most_alkali(ground, slice, aim, true);
  optimise::Limit limit = limit_of(ground, [&](const LyeOil& oil) {
    return keep * oil.sure_high - most.per_dose * (1 - aim) * oil.need_low;
  });
  const double need_least = ground.other_need - need_off(ground);
  limit.low =
      most.constant + most.per_dose * dose_at(ground, aim, need_least) - keep * ground.other_sure;
  return limit;
}

/// Limit that blends keep whose worst case does not hold at a superfat.
optimise::Limit fails_at(const LyeGround& ground, const LyeSlice& slice, double aim) {
  const double keep = 1 - ground.settings.never_below;
  const MostAlkali most = most_alkali(ground, slice, aim, false);
  optimise::Limit limit = limit_of(ground, [&](const LyeOil& oil) {
    return keep * oil.sure_low - most.per_dose * (1 - aim) * oil.need_high;
  });
  const double off = ground.most_lines * (ground.scales.oils.error_grams() + ground.rounded_by) /
                     ground.oil_grams * most_of(ground.oils, &LyeOil::sure_high);
  limit.high = most.constant +
               most.per_dose * dose_at(ground, aim, ground.other_need + need_off(ground)) -
               keep * (ground.other_sure - off);
  return limit;
}

/// Whether some shares may keep a linear limit: each oil at most what the problem lets in.
bool can_hold(const optimise::Limit& limit, const optimise::Problem& problem) {
  const auto reach = [&](double sign) {
    std::vector<std::size_t> order(problem.oils.size());
    std::iota(order.begin(), order.end(), std::size_t(0));
    const auto& c = limit.form.linear;
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return sign * c[a] > sign * c[b]; });
    double left = 1, sum = 0;
    for (const std::size_t i : order) {
      const double share =
          std::min(left, static_cast<double>(problem.oils[i].most) / problem.steps);
      sum += share * c[i];
      left -= share;
    }
    return sum;
  };
  return (limit.low == -optimise::kInfinity || reach(1) >= limit.low) &&
         (limit.high == optimise::kInfinity || reach(-1) <= limit.high);
}

// The least need a dose at this superfat can be weighed for, mol: of fewer steps of the lye scale
// the lye engine lets no dose pass.
double least_weighable(const LyeGround& ground, double aim) {
  double moles = 0;
  for (const DoseLine& line : dose_lines(ground.settings))
    moles += kFewestSteps * ground.scales.lye.step * line.stated / line.molar;
  return aim < 1 ? (1 - kSlip) * (moles - ground.corrected) / (1 - aim) : 0;
}

}  // namespace

LyeGround lye_ground(const Candidates& candidates, const optimise::Problem& problem,
                     double oil_grams, const core::Pot& beside, double brought_water,
                     const core::LyeSettings& settings, const core::Scales& scales) {
  LyeGround out;
  out.oil_grams = oil_grams;
  out.brought_water = brought_water;
  out.settings = settings;
  out.scales = scales;
  out.most_lines = static_cast<int>(problem.oils.size());
  if (problem.most_oils > 0) out.most_lines = std::min(out.most_lines, problem.most_oils);
  const double per_step = oil_grams / problem.steps / scales.oils.step;
  const bool whole = std::abs(per_step - std::round(per_step)) < kSlip * per_step;
  out.rounded_by = whole ? 0 : scales.oils.step / 2;
  for (const Candidate& candidate : candidates.oils) {
    LyeOil oil{optimise::kInfinity, 0, optimise::kInfinity, 0};
    const auto see = [&](const oils::Oil& figures) {
      const core::PotFat fat = recipe::pot_fat({figures, oil_grams});
      const core::Span span = core::judged_span(fat);
      oil.need_low = std::min(oil.need_low, moles(oil_grams, span.typical));
      oil.need_high = std::max(oil.need_high, moles(oil_grams, span.typical));
      oil.sure_low = std::min(oil.sure_low, moles(oil_grams, span.low));
      oil.sure_high = std::max(oil.sure_high, moles(oil_grams, span.low));
    };
    see(candidate.oil);
    if (candidate.holding) {
      // Any grams of it lie between its lots and what is published.
      see(candidate.holding->published);
      see(candidate.holding->figures);
      for (const auto& lot : candidate.holding->usable) {
        const double low = moles(oil_grams, lot.saponification_value.low);
        oil.sure_low = std::min({oil.sure_low, low, (1 - core::kLeastSpread) * oil.need_low});
        oil.sure_high = std::max(oil.sure_high, low);
      }
    }
    out.oils.push_back(oil);
  }
  for (const auto& fat : beside.fats) {
    const core::Span span = core::judged_span(fat);
    const double error = fat.error.value_or(scales.oils.error_grams());
    out.other_need += moles(fat.grams, span.typical);
    out.other_sure += moles(std::max(0.0, fat.grams - error), span.low);
  }
  for (const auto& acid : beside.acids) {
    const double used = core::alkali_moles(acid);
    if (acid.answer == core::AcidAnswer::correct) out.corrected += used;
    out.acid += used;
    out.least_acid += core::least_alkali_moles(acid, scales.lye.error_grams());
  }
  return out;
}

std::vector<LyeSlice> lye_slices(const LyeGround& ground, const optimise::Problem& problem) {
  const std::vector<double> aims = core::superfat_levels(ground.settings.superfat);
  const std::size_t levels = ground.settings.may_raise ? aims.size() : 1;
  std::vector<LyeSlice> out;
  for (std::size_t level = 0; level < levels; ++level) {
    LyeSlice slice;
    slice.level = level;
    slice.need_from =
        std::max(least_weighable(ground, aims[level]),
                 (1 - kSlip) * (least_of(ground.oils, &LyeOil::need_low) + ground.other_need) -
                     need_off(ground));
    slice.need_to = (1 + kSlip) * (most_of(ground.oils, &LyeOil::need_high) + ground.other_need) +
                    need_off(ground);
    if (slice.need_from >= slice.need_to) continue;
    const auto limits = lye_limits(ground, slice);
    if (std::all_of(limits.begin(), limits.end(),
                    [&](const optimise::Limit& limit) { return can_hold(limit, problem); }))
      out.push_back(slice);
  }
  return out;
}

std::vector<optimise::Limit> lye_limits(const LyeGround& ground, const LyeSlice& slice) {
  if (!ground.fixed) return {};
  const std::vector<double> levels = core::superfat_levels(ground.settings.superfat);
  std::vector<optimise::Limit> out = {holds_at(ground, slice, levels[slice.level])};
  if (slice.level > 0) out.push_back(fails_at(ground, slice, levels[slice.level - 1]));
  const double off = need_off(ground);
  // Two rows, as lots may move the need: between what it is at least and at most.
  optimise::Limit least = limit_of(ground, [](const LyeOil& oil) { return oil.need_high; });
  least.low = slice.need_from - ground.other_need - off;
  out.push_back(std::move(least));
  optimise::Limit most = limit_of(ground, [](const LyeOil& oil) { return oil.need_low; });
  most.high = slice.need_to - ground.other_need + off;
  out.push_back(std::move(most));
  return out;
}

targets::BarSettings SettingsBox::middle() const {
  targets::BarSettings out = low;
  out.superfat = (low.superfat + high.superfat) / 2;
  out.lye_concentration = (low.lye_concentration + high.lye_concentration) / 2;
  return out;
}

bool SettingsBox::has(const targets::BarSettings& settings) const {
  constexpr double kRoom = 1e-9;
  return settings.superfat >= low.superfat - kRoom && settings.superfat <= high.superfat + kRoom &&
         settings.lye_concentration >= low.lye_concentration - kRoom &&
         settings.lye_concentration <= high.lye_concentration + kRoom;
}

SettingsBox settings_box(const LyeGround& ground, const LyeSlice& slice,
                         const targets::BarSettings& about) {
  const double aim = core::superfat_levels(ground.settings.superfat)[slice.level];
  const double from = slice.need_from, to = slice.need_to;
  LeftOff off;  // mol, all lines
  for (const DoseLine& line : dose_lines(ground.settings)) {
    const LeftOff of = left_off(ground, line, dose_at(ground, aim, from), dose_at(ground, aim, to));
    off.low += of.low * line.stated / line.molar;
    off.high += of.high * line.stated / line.molar;
  }
  // superfat = aim + (left off + what acids use up beyond what is dosed for them) / need
  const double beyond = ground.acid - ground.corrected;
  SettingsBox box{about, about};
  box.low.superfat = aim + (off.low + beyond) / (off.low + beyond < 0 ? from : to);
  box.high.superfat = aim + (off.high + beyond) / (off.high + beyond < 0 ? to : from);
  box.low.lye_concentration = 1;
  box.high.lye_concentration = 0;
  const double half = ground.scales.lye.step / 2;
  for (const double need : {from, to}) {
    for (const double less : {off.low, off.high}) {
      const double dosed = dose_at(ground, aim, need) - less;
      double weighed = 0, pure = 0;
      for (const DoseLine& line : dose_lines(ground.settings)) {
        weighed += line.grams(dosed);
        pure += line.grams(dosed) * line.stated;
      }
      const auto& rule = ground.settings.water;
      using Kind = core::WaterRule::Kind;
      const double water = rule.kind == Kind::concentration ? pure / rule.value - weighed
                           : rule.kind == Kind::ratio       ? rule.value * weighed
                                                            : rule.value * ground.oil_grams;
      for (const double rounding : {-half, half}) {
        const double all = std::max(ground.brought_water, water + rounding);
        const double share = pure / (weighed + all);
        box.low.lye_concentration = std::min(box.low.lye_concentration, share);
        box.high.lye_concentration = std::max(box.high.lye_concentration, share);
      }
    }
  }
  return box;
}

std::vector<LyeSlice> halves(const LyeGround& ground, const LyeSlice& slice) {
  if (!ground.fixed) return {};
  const double aim = core::superfat_levels(ground.settings.superfat)[slice.level];
  const SettingsBox box = settings_box(ground, slice, {});
  if (box.high.superfat - box.low.superfat <= kNarrow) return {};
  const DoseLine line = dose_lines(ground.settings).front();
  const double step = ground.scales.lye.step;
  const double a = line.grams(dose_at(ground, aim, slice.need_from));
  const double b = line.grams(dose_at(ground, aim, slice.need_to));
  double cut = (a + b) / 2;
  const double edge = core::rounded(cut, step);  // between two steps of the lye scale, if it can be
  if (edge > a + 1e-6 * step && edge < b - 1e-6 * step) cut = edge;
  const double need = (cut * line.stated / line.molar / line.share - ground.corrected) / (1 - aim);
  if (!(need > slice.need_from && need < slice.need_to)) return {};
  return {{slice.level, slice.need_from, need}, {slice.level, need, slice.need_to}};
}

}  // namespace barwright::formulate
