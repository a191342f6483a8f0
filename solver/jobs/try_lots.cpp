#include "solver/jobs/try_lots.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "solver/formulate/subject.hpp"
#include "targets/model/lots.hpp"
#include "targets/model/words.hpp"

namespace barwright::jobs {
namespace {

using targets::Composition;
using Kind = targets::Subject::Kind;

// One oil that takes part, in the bar or in a bar it is compared with.
struct Drawn {
  targets::LotRange range;
  core::Span saponification_value;
  core::Span iodine_value;
  bool measured = false;
  Composition lot;
  double sv = 0, iv = 0;
};

// The oils of all bars, each once, so that bars share the lots of the oils they share.
class Pantry {
 public:
  Pantry(const std::optional<oils::MeasuredLots>& measured, std::uint64_t seed)
      : measured_(measured), bits_(seed) {}

  std::size_t place(const oils::Oil& oil) {
    const auto found = places_.find(oil.name);
    if (found != places_.end()) return found->second;
    Drawn drawn{targets::lot_range(oil),
                oil.saponification_value.span,
                oil.iodine_value.span,
                measured_ && measured_->oil == oil.name,
                {},
                0,
                0};
    drawn.lot = drawn.range.typical;
    drawn.sv = drawn.saponification_value.typical;
    drawn.iv = drawn.iodine_value.typical;
    oils_.push_back(drawn);
    places_[oil.name] = oils_.size() - 1;
    return oils_.size() - 1;
  }

  void draw_all() {
    for (Drawn& oil : oils_) {
      if (oil.measured) {
        oil.lot.acids = measured_->lots[bits_() % measured_->lots.size()];
      } else {
        oil.lot = targets::draw_lot(oil.range, bits_);
      }
      oil.sv = targets::draw_figure(oil.saponification_value, bits_);
      oil.iv = targets::draw_figure(oil.iodine_value, bits_);
    }
  }
  void take(std::size_t measured_lot) {
    for (Drawn& oil : oils_)
      if (oil.measured) oil.lot.acids = measured_->lots[measured_lot];
  }

  bool measures() const {
    return std::any_of(oils_.begin(), oils_.end(), [](const Drawn& oil) { return oil.measured; });
  }

  // Rewrites what depends on lots in a bar of these places and shares.
  void pour(formulate::KnownBar& bar,
            const std::vector<std::pair<std::size_t, double>>& parts) const {
    bar.composition = {};
    bar.saponification_value = bar.iodine_value = 0;
    for (const auto& [at, share] : parts) {
      const Drawn& oil = oils_[at];
      for (std::size_t k = 0; k < core::kFattyAcidCount; ++k)
        bar.composition.acids[k] += share * oil.lot.acids[k];
      bar.composition.unsaponifiable += share * oil.lot.unsaponifiable;
      bar.composition.wax += share * oil.lot.wax;
      bar.composition.free_acid += share * oil.lot.free_acid;
      bar.saponification_value += share * oil.sv;
      bar.iodine_value += share * oil.iv;
    }
  }

 private:
  const std::optional<oils::MeasuredLots>& measured_;
  std::mt19937_64 bits_;
  std::vector<Drawn> oils_;
  std::map<std::string, std::size_t> places_;
};

using Parts = std::vector<std::pair<std::size_t, double>>;

// A wish with all that judging it again and again needs.
struct Judged {
  const targets::Wish* wish = nullptr;
  std::optional<targets::PropertyForm> form;        // of the bar
  std::optional<targets::PropertyForm> there_form;  // of the bar compared with
  std::size_t there = 0;                            // which known bar, when compared
  double low = -optimise::kInfinity, high = optimise::kInfinity;

  bool holds(const formulate::KnownBar& bar, const std::vector<formulate::KnownBar>& known,
             const targets::PropertyModel& model) const {
    double value = of(form, bar, model);
    if (wish->compared) value -= of(there_form, known[there], model);
    const double slack = optimise::kTolerance * std::max(1.0, std::abs(value));
    return value >= low - slack && value <= high + slack;
  }

 private:
  double of(const std::optional<targets::PropertyForm>& property, const formulate::KnownBar& bar,
            const targets::PropertyModel& model) const {
    if (property) return property->outer(property->inner(bar.composition));
    return formulate::value_of(wish->subject, wish->written, bar, model, {});
  }
};

double end(const targets::Bound& bound, const targets::Subject& subject) {
  return bound.value + bound.noticeable * formulate::noticeable(subject);
}

bool has_form(const targets::Subject& subject) {
  return subject.kind == Kind::property && targets::PropertyModel::has_form(subject.property);
}

}  // namespace

std::pair<double, double> share_interval(int held, int tries) {
  const double z = targets::deviations(0.975), n = tries, p = held / n;
  const double middle = p + z * z / (2 * n);
  const double reach = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  const double whole = 1 + z * z / n;
  return {std::max(0.0, (middle - reach) / whole), std::min(1.0, (middle + reach) / whole)};
}

LotTrial try_lots(const BlendJob& job, const BlendResult& result, int count, std::uint64_t seed,
                  const std::optional<oils::MeasuredLots>& measured) {
  Pantry pantry(measured, seed);
  formulate::KnownBar bar;
  bar.settings = result.settings;
  Parts bar_parts;
  for (const std::size_t i : result.used)
    bar_parts.emplace_back(pantry.place(job.candidates.oils[i].oil), result.shares[i]);

  std::vector<formulate::KnownBar> known;
  std::vector<Parts> known_parts;
  std::vector<Judged> judged;
  std::map<std::string, std::size_t> known_at;
  for (std::size_t w = 0; w < job.brief.wishes.size(); ++w) {
    const targets::Wish& wish = job.brief.wishes[w];
    if (wish.subject.kind == Kind::oil_cost) continue;
    Judged one{&wish, {}, {}, 0};
    if (wish.low) one.low = end(*wish.low, wish.subject);
    if (wish.high) one.high = end(*wish.high, wish.subject);
    if (has_form(wish.subject)) one.form = job.model.form(wish.subject.property, bar.settings);
    if (wish.compared) {
      const auto [at, fresh] = known_at.try_emplace(wish.than, known.size());
      if (fresh) {
        known.push_back(wish.than.empty() ? *job.yardstick
                                          : job.plain_bar(wish.than, wish.written));
        known_parts.emplace_back();
        for (const formulate::KnownPart& part : known.back().parts)
          known_parts.back().emplace_back(pantry.place(part.oil), part.share);
      }
      one.there = at->second;
      if (has_form(wish.subject))
        one.there_form = job.model.form(wish.subject.property, known[one.there].settings);
    }
    judged.push_back(std::move(one));
  }

  LotTrial out;
  out.measured_used = pantry.measures();
  const bool each = measured && count == 0;
  out.lots = each ? static_cast<int>(measured->lots.size()) : count;
  out.seed = seed;
  std::vector<int> held(judged.size(), 0);
  int all_held = 0;
  for (int lot = 0; lot < out.lots; ++lot) {
    if (each) {
      pantry.take(static_cast<std::size_t>(lot));
    } else {
      pantry.draw_all();
    }
    pantry.pour(bar, bar_parts);
    for (std::size_t b = 0; b < known.size(); ++b) pantry.pour(known[b], known_parts[b]);
    bool all = true;
    for (std::size_t w = 0; w < judged.size(); ++w) {
      const bool kept = judged[w].holds(bar, known, job.model);
      held[w] += kept;
      all = all && kept;
    }
    all_held += all;
  }
  const auto trial = [&](int asked, int kept) {
    const auto [low, high] = share_interval(kept, out.lots);
    return WishTrial{asked, kept, low, high};
  };
  for (std::size_t w = 0; w < judged.size(); ++w) {
    const auto index = judged[w].wish - job.brief.wishes.data();
    out.wishes.push_back(trial(static_cast<int>(index), held[w]));
  }
  out.all = trial(-1, all_held);
  return out;
}

}  // namespace barwright::jobs
