#include "solver/tune/notes_model.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "solver/tune/hands.hpp"
#include "solver/tune/latent.hpp"
#include "solver/tune/slice.hpp"
#include "targets/model/coefficients.hpp"
#include "targets/model/forms.hpp"
#include "targets/model/words.hpp"

namespace barwright::tune {

using targets::Means;
using targets::Property;
using targets::PropertyForm;
using targets::Verdict;

namespace {

// All figures of this block are judgement: no trial of how makers judge bars was found.
constexpr double kOffsetScale = 0.5;  // steps at 100 % of an oil, half-normal
constexpr double kLuck = 0.4;         // steps a pour is off by, median
constexpr double kLuckSpread = 0.6;   // of its logarithm
constexpr double kLot = 1.0;          // steps at 100 % of an oil that a lot is off by
constexpr double kMostExpected = 2;   // steps
constexpr double kZeroSpread = 1.5;   // of a session's level, in logarithms

targets::BarSettings settings_of(const targets::LyeWish& lye) {
  using targets::LyeWish;
  targets::BarSettings out;
  if (lye.superfat) out.superfat = *lye.superfat;
  if (lye.concentration) out.lye_concentration = *lye.concentration;
  if (lye.alkali == LyeWish::Alkali::potassium) out.koh_share = 1;
  if (lye.koh_share && lye.koh_basis == LyeWish::KohBasis::moles) out.koh_share = *lye.koh_share;
  return out;
}

bool same_bar(const DistinctBar& a, const DistinctBar& b) {
  return a.settings.superfat == b.settings.superfat &&
         a.settings.lye_concentration == b.settings.lye_concentration &&
         a.settings.koh_share == b.settings.koh_share &&
         std::equal(a.composition.parts.begin(), a.composition.parts.end(),
                    b.composition.parts.begin(), b.composition.parts.end(),
                    [](const auto& x, const auto& y) {
                      return x.oil == y.oil && std::abs(x.share - y.share) < 1e-9;
                    });
}

bool same_look(Property property, const targets::BarSettings& a, const targets::BarSettings& b) {
  return a.superfat == b.superfat && a.koh_share == b.koh_share &&
         a.lye_concentration == b.lye_concentration &&
         (property != Property::hardness || a.cure_days == b.cure_days);
}

}  // namespace

NotesModel::NotesModel(targets::MakerNotes notes, const oils::Library& library,
                       const targets::PropertyModel& print)
    : notes_(std::move(notes)), print_(print) {
  read_bars(library);
  read_comparisons();
  read_measurements();
  lay_out();
  // What print says of each pair, for bars that were not judged blind.
  const std::vector<double> nothing(size_, 0.0);
  Worked worked;
  const Seen seen = see(nothing, false, worked);
  for (Piece& piece : pieces_)
    if (piece.kind == Kind::verdict)
      piece.expected =
          std::clamp(seen.steps[piece.a] - seen.steps[piece.b], -kMostExpected, kMostExpected);
  ask();
}

void NotesModel::read_bars(const oils::Library& library) {
  lots_of_.resize(notes_.pours.size());
  for (std::size_t p = 0; p < notes_.pours.size(); ++p) {
    const targets::Pour& pour = notes_.pours[p];
    DistinctBar bar;
    bar.name = pour.recipe.name.empty() ? pour.name : pour.recipe.name;
    bar.settings = settings_of(pour.recipe.lye);
    std::vector<targets::Composition> parts;
    std::vector<double> shares;
    for (const auto& oil : pour.recipe.blend.oils) {
      const oils::Oil* found = library.find(oil.oil.name);
      parts.push_back(targets::composition(*found));
      shares.push_back(oil.share);
      if (std::find(oils_.begin(), oils_.end(), found) == oils_.end()) {
        oils_.push_back(found);
        pure_.push_back(parts.back());
      }
      for (const auto& lot : pour.lots) {
        if (lot.first != oil.oil.name) continue;
        auto at = std::find(lots_.begin(), lots_.end(), lot);
        if (at == lots_.end()) at = lots_.insert(lots_.end(), lot);
        lots_of_[p].emplace_back(static_cast<std::size_t>(at - lots_.begin()), oil.share);
      }
    }
    bar.composition = targets::mix(parts, shares);
    const auto same = std::find_if(bars_.begin(), bars_.end(),
                                   [&](const DistinctBar& b) { return same_bar(b, bar); });
    bar_of_.push_back(static_cast<std::size_t>(same - bars_.begin()));
    if (same == bars_.end()) bars_.push_back(std::move(bar));
  }
  for (const DistinctBar& bar : bars_) {
    std::vector<double> shares;
    for (const auto& pure : pure_) {
      double share = 0;
      for (const auto& part : bar.composition.parts)
        if (part.oil == pure.parts.front().oil) share = part.share;
      shares.push_back(share);
    }
    shares_.push_back(std::move(shares));
  }
}

std::optional<std::size_t> NotesModel::find_row(Property property) const {
  const auto at = std::find(properties_.begin(), properties_.end(), property);
  if (at == properties_.end()) return std::nullopt;
  return static_cast<std::size_t>(at - properties_.begin());
}

std::size_t NotesModel::row_of(Property property) {
  if (const auto row = find_row(property)) return *row;
  properties_.push_back(property);
  return properties_.size() - 1;
}

std::size_t NotesModel::sight(std::size_t pour, Property property, double days) {
  targets::BarSettings settings = bars_[bar_of_[pour]].settings;
  if (property == Property::hardness) settings.cure_days = days;
  auto look = std::find_if(looks_.begin(), looks_.end(), [&](const Look& l) {
    return l.property == property && same_look(property, l.settings, settings);
  });
  if (look == looks_.end()) look = looks_.insert(look, {property, settings, {}});
  for (const std::size_t s : look->sights)
    if (sights_[s].pour == pour) return s;
  sights_.push_back({pour, row_of(property)});
  look->sights.push_back(sights_.size() - 1);
  return sights_.size() - 1;
}

void NotesModel::read_comparisons() {
  for (std::size_t c = 0; c < notes_.comparisons.size(); ++c) {
    const targets::ComparisonNote& note = notes_.comparisons[c];
    Piece piece;
    piece.a = sight(note.bar, note.property, note.bar_days);
    piece.b = sight(note.against, note.property, note.against_days);
    piece.verdicts = note.verdicts;
    piece.blind = note.blind;
    piece.comparison = c;
    sayings_.push_back({note.written.place, note.written.text, {note.bar, note.against}});
    pieces_.push_back(std::move(piece));
  }
}

void NotesModel::read_measurements() {
  // Which bars each means was used on decides whether its figures count or their order alone.
  std::map<Means, std::set<std::size_t>> bars;
  for (const auto& note : notes_.measurements)
    for (const auto& found : note.readings) bars[note.means].insert(bar_of_[found.bar]);
  const auto clearly_different = [&](Means means) {
    const auto property = targets::property_of(means);
    if (!property) return true;
    std::vector<double> scores;
    for (const std::size_t b : bars[means])
      scores.push_back(print_.value(*property, bars_[b].composition, bars_[b].settings) /
                       targets::noticeable(*property));
    std::sort(scores.begin(), scores.end());
    std::size_t apart = 0;
    double last = -1e9;
    for (const double score : scores)
      if (score - last >= 1) {
        ++apart;
        last = score;
      }
    return apart >= 3;
  };
  for (std::size_t m = 0; m < notes_.measurements.size(); ++m) {
    const targets::MeasurementNote& note = notes_.measurements[m];
    const bool counts = clearly_different(note.means);
    std::vector<Piece> of_note;
    for (std::size_t r = 0; r < note.readings.size(); ++r) {
      const targets::Found& found = note.readings[r];
      Piece piece;
      piece.means = note.means;
      piece.pour = found.bar;
      piece.days = found.days;
      piece.log_figure = std::log(found.figure);
      piece.at_least = found.at_least;
      piece.measurement = m;
      piece.reading = r;
      const auto property = targets::property_of(note.means);
      piece.kind = property ? Kind::figure : Kind::drying;
      if (property) piece.a = sight(found.bar, *property, found.days);
      // A bar weighed week by week has its own weight for its level.
      std::string key = std::string(targets::words(note.means)) + "\n";
      key += !property              ? "pour " + notes_.pours[found.bar].name
             : note.session.empty() ? "note " + std::to_string(m)
                                    : "session " + note.session;
      of_note.push_back(piece);
      if (!counts) continue;
      of_note.back().session = session_of_.emplace(key, session_of_.size()).first->second;
      sayings_.push_back({found.written.place, found.written.text, {found.bar}});
      pieces_.push_back(of_note.back());
    }
    if (counts) continue;
    // Order alone: each figure beside the next greater one.
    std::stable_sort(of_note.begin(), of_note.end(),
                     [](const Piece& a, const Piece& b) { return a.log_figure < b.log_figure; });
    for (std::size_t i = 0; i + 1 < of_note.size(); ++i) {
      const Piece &less = of_note[i], &more = of_note[i + 1];
      if (less.log_figure == more.log_figure || less.at_least) continue;
      Piece piece = more;
      piece.kind = Kind::order;
      piece.b = less.a;
      const targets::Found& found = note.readings[more.reading];
      sayings_.push_back({found.written.place, found.written.text, {more.pour, less.pour}});
      pieces_.push_back(std::move(piece));
    }
  }
}

void NotesModel::lay_out() {
  const auto& constants = print_.constants();
  for (std::size_t c = 0; c < constants.size(); ++c)
    if (constants[c].spread.kind != targets::Spread::Kind::none && constants[c].used)
      spread_.push_back(c);
  const std::size_t p = properties_.size();
  size_ = spread_.size();
  const auto room = [&](std::size_t count) {
    const std::size_t at = size_;
    size_ += count;
    return at;
  };
  scale_at_ = room(p);
  offset_at_ = room(p * oils_.size());
  luck_at_ = room(1);
  effect_at_ = room(p * notes_.pours.size());
  lot_at_ = room(p * lots_.size());
  hand_at_ = room(kHandUnknowns);
  means_at_ = room(kMeansUnknowns * targets::kMeansCount);
  zero_at_ = room(session_of_.size());
  for (std::size_t i = scale_at_; i < size_; ++i) not_constants_.push_back(i);
}

void NotesModel::ask() {
  // Each distinct bar beside the one most often spoken of.
  std::vector<std::size_t> spoken(bars_.size(), 0);
  for (const Saying& saying : sayings_)
    for (const std::size_t pour : saying.pours) ++spoken[bar_of_[pour]];
  if (spoken.empty()) return;
  const auto most =
      static_cast<std::size_t>(std::max_element(spoken.begin(), spoken.end()) - spoken.begin());
  for (const Property property : properties_) {
    std::set<std::size_t> bars;
    for (const Sight& sight : sights_)
      if (properties_[sight.row] == property) bars.insert(bar_of_[sight.pour]);
    const std::size_t against = bars.count(most) == 1 ? most : *bars.begin();
    for (const std::size_t bar : bars)
      if (bar != against) asked_.push_back({property, bar, against});
  }
}

targets::ConstantValues NotesModel::constants(std::span<const double> z) const {
  targets::ConstantValues out = print_.values();
  const auto& constants = print_.constants();
  for (std::size_t i = 0; i < spread_.size(); ++i)
    out.values[spread_[i]] = constants[spread_[i]].at(normal_share(z[i]));
  return out;
}

double NotesModel::offset_scale(std::span<const double> z, Property property) const {
  const auto row = find_row(property);
  return row ? kOffsetScale * half_normal(z[scale_at_ + *row]) : 0;
}

double NotesModel::offset(std::span<const double> z, std::size_t oil, Property property) const {
  const auto row = find_row(property);
  return row ? offset_scale(z, property) * student4(z[offset_at_ + *row * oils_.size() + oil]) : 0;
}

double NotesModel::luck(std::span<const double> z) const {
  return log_normal(z[luck_at_], kLuck, kLuckSpread);
}

double NotesModel::pour_effect(std::span<const double> z, std::size_t pour, std::size_t row,
                               double luck) const {
  double effect = luck * z[effect_at_ + row * notes_.pours.size() + pour];
  for (const auto& [lot, share] : lots_of_[pour])
    effect += kLot * share * z[lot_at_ + row * lots_.size() + lot];
  return effect;
}

double NotesModel::pour_effect(std::span<const double> z, std::size_t pour,
                               Property property) const {
  const auto row = find_row(property);
  return row ? pour_effect(z, pour, *row, luck(z)) : 0;
}

void NotesModel::work_out(std::span<const double> z, Worked& worked) const {
  const std::span<const double> key = z.first(spread_.size());
  if (!worked.key.empty() && std::equal(key.begin(), key.end(), worked.key.begin())) return;
  worked.key.assign(key.begin(), key.end());
  worked.constants = constants(z);
  const targets::Chains chains = targets::derive_chains(*print_.table(), worked.constants);
  worked.looks.resize(looks_.size());
  for (std::size_t l = 0; l < looks_.size(); ++l) {
    const Look& look = looks_[l];
    Worked::OfLook& out = worked.looks[l];
    const PropertyForm form =
        targets::property_form(look.property, worked.constants, chains, look.settings);
    out.rising = form.rising();
    out.half = form.scale_parameter;
    out.alone.clear();
    for (const auto& pure : pure_) out.alone.push_back(form.inner(pure));
    out.inner.clear();
    for (const std::size_t s : look.sights)
      out.inner.push_back(form.inner(bars_[bar_of_[sights_[s].pour]].composition));
  }
}

NotesModel::Seen NotesModel::see(std::span<const double> z, bool pours, Worked& worked) const {
  work_out(z, worked);
  Seen out;
  out.steps.resize(sights_.size());
  out.paces.resize(sights_.size());
  const std::size_t oils = oils_.size();
  std::vector<double> offsets;
  for (std::size_t row = 0; row < properties_.size(); ++row) {
    const double scale = kOffsetScale * half_normal(z[scale_at_ + row]);
    for (std::size_t o = 0; o < oils; ++o)
      offsets.push_back(scale * student4(z[offset_at_ + row * oils + o]));
  }
  const double lucky = luck(z);
  std::vector<double> own(oils);
  std::vector<bool> worked_out(oils);
  for (std::size_t l = 0; l < looks_.size(); ++l) {
    const Look& look = looks_[l];
    const Worked::OfLook& of = worked.looks[l];
    const std::size_t row = sights_[look.sights.front()].row;
    // Only the oils of the bars that this look sees.
    std::fill(worked_out.begin(), worked_out.end(), false);
    const auto own_of = [&](std::size_t o) {
      if (!worked_out[o]) {
        own[o] =
            targets::own_effect(of.rising, look.property, of.alone[o], offsets[row * oils + o]);
        worked_out[o] = true;
      }
      return own[o];
    };
    const double step = targets::noticeable(look.property);
    const double log_step = targets::log_per_step(look.property);
    for (std::size_t k = 0; k < look.sights.size(); ++k) {
      const std::size_t s = look.sights[k], pour = sights_[s].pour;
      double inner = of.inner[k];
      const std::vector<double>& shares = shares_[bar_of_[pour]];
      for (std::size_t o = 0; o < oils; ++o)
        if (shares[o] > 0) inner += shares[o] * own_of(o);
      const double effect = pours ? pour_effect(z, pour, row, lucky) : 0;
      if (of.rising) {
        out.steps[s] = out.paces[s] = inner / step + effect;
      } else {
        inner = std::max(inner, 1e-6) * std::exp(-effect * log_step);
        out.steps[s] = 100 / (1 + inner / of.half) / step;
        out.paces[s] = -std::log(inner) / log_step;
      }
    }
  }
  return out;
}

std::vector<double> NotesModel::predictors(std::span<const double> z) const {
  Worked worked;
  return predictors(see(z, true, worked), worked, z, hands(z));
}

std::vector<double> NotesModel::predictors(const Seen& seen, const Worked& worked,
                                           std::span<const double> z, const Hands& hands) const {
  std::vector<double> out;
  out.reserve(pieces_.size());
  for (const Piece& piece : pieces_) {
    const Link link = link_of(piece.means);
    switch (piece.kind) {
      case Kind::verdict:
        out.push_back(seen.steps[piece.a] - seen.steps[piece.b] + hands.bias +
                      (piece.blind ? 0 : hands.expects * piece.expected));
        break;
      case Kind::order:
        out.push_back((link.slope > 0 ? 1 : -1) * (seen.paces[piece.a] - seen.paces[piece.b]));
        break;
      case Kind::figure:
      case Kind::drying: {
        const double slope = hands.slope[static_cast<std::size_t>(piece.means)];
        const double zero = std::log(link.usual) + kZeroSpread * z[zero_at_ + piece.session];
        double x = 0;
        if (piece.kind == Kind::figure) {
          // Seen from the middle of the scale, so that slope and level are apart.
          const Property property = *targets::property_of(piece.means);
          const bool paced = property == Property::keeping || property == Property::working_time;
          const double middle = paced ? -std::log(2.5) / targets::log_per_step(property)
                                      : 50 / targets::noticeable(property);
          x = seen.paces[piece.a] - middle;
        } else {
          const double strength = bars_[bar_of_[piece.pour]].settings.lye_concentration;
          x = -std::log(1 - targets::bar_water(worked.constants, strength, piece.days)) /
              kDryingStep;
        }
        out.push_back(zero + slope * x);
        break;
      }
    }
  }
  return out;
}

Hands NotesModel::hands(std::span<const double> z) const {
  return hands_of(z.subspan(hand_at_, kHandUnknowns),
                  z.subspan(means_at_, kMeansUnknowns * targets::kMeansCount));
}

double NotesModel::saying_at(std::size_t saying, double predictor,
                             std::span<const double> z) const {
  return saying_at(pieces_[saying], predictor, hands(z));
}

double NotesModel::saying_at(const Piece& piece, double predictor, const Hands& hands) {
  if (piece.kind == Kind::verdict) {
    double sum = 0;
    for (const Verdict verdict : piece.verdicts)
      sum += std::log(chance_of(verdict, predictor, hands.noise(piece.blind), hands));
    return sum;
  }
  const auto m = static_cast<std::size_t>(piece.means);
  if (piece.kind == Kind::order) {
    const double spread = std::sqrt(2.0) * hands.off[m];
    return std::log((1 - hands.slips) * normal_share(predictor / spread) + hands.slips / 2);
  }
  const double t = (piece.log_figure - predictor) / hands.unit[m];
  if (piece.at_least) return std::log(std::max(student4_above(t), 1e-300));
  return log_student4_density(t) - std::log(hands.unit[m]);
}

std::vector<double> NotesModel::by_saying(std::span<const double> z) const {
  std::vector<double> out = predictors(z);
  const Hands read = hands(z);
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = saying_at(pieces_[i], out[i], read);
  return out;
}

double NotesModel::log_likelihood(std::span<const double> z, Worked& worked) const {
  const Hands read = hands(z);
  const std::vector<double> at = predictors(see(z, true, worked), worked, z, read);
  double sum = 0;
  // Chances of verdicts are multiplied, and their logarithm taken before they grow too small.
  double product = 1;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const Piece& piece = pieces_[i];
    if (piece.kind != Kind::verdict) {
      sum += saying_at(piece, at[i], read);
      continue;
    }
    for (const Verdict verdict : piece.verdicts) {
      product *= chance_of(verdict, at[i], read.noise(piece.blind), read);
      if (product > 1e-200) continue;
      sum += std::log(product);
      product = 1;
    }
  }
  return sum + std::log(product);
}

double NotesModel::log_likelihood(std::span<const double> z) const {
  Worked worked;
  return log_likelihood(z, worked);
}

std::vector<double> NotesModel::strays(std::span<const double> z) const {
  std::vector<double> out = predictors(z);
  const Hands read = hands(z);
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = stray(pieces_[i], out[i], read);
  return out;
}

double NotesModel::stray(const Piece& piece, double at, const Hands& read) {
  const double whole = saying_at(piece, at, read);
  if (piece.kind == Kind::verdict) {
    // Of several judges the share of slips among them.
    const double mean = std::exp(whole / static_cast<double>(piece.verdicts.size()));
    return std::min(1.0, read.slips / targets::kVerdictCount / mean);
  }
  if (piece.kind == Kind::order) return std::min(1.0, read.slips / 2 / std::exp(whole));
  // A figure: the share of Student's law that lies nearer than it does.
  const double t = (piece.log_figure - at) / read.unit[static_cast<std::size_t>(piece.means)];
  return piece.at_least && t < 0 ? 0 : 1 - 2 * student4_above(std::abs(t));
}

std::vector<double> NotesModel::differences(std::span<const double> z) const {
  const targets::PropertyModel all = model(z);
  std::vector<double> out;
  for (const Asked& one : asked_) {
    const DistinctBar &bar = bars_[one.bar], &against = bars_[one.against];
    out.push_back(all.value(one.property, bar.composition, bar.settings) -
                  all.value(one.property, against.composition, against.settings));
  }
  return out;
}

targets::PropertyModel NotesModel::model(std::span<const double> z) const {
  targets::OilOffsets offsets;
  for (std::size_t o = 0; o < oils_.size(); ++o) {
    targets::OilOffsets::Of of;
    of.pure = pure_[o];
    for (const Property property : properties_)
      of.steps[static_cast<std::size_t>(property)] = offset(z, o, property);
    offsets.oils.push_back(std::move(of));
  }
  return print_.at_values(constants(z), std::move(offsets));
}

void NotesModel::rescale(std::vector<double>& z, Dice& dice) const {
  const std::size_t effects = properties_.size() * notes_.pours.size();
  double squares = 0;
  for (std::size_t i = 0; i < effects; ++i) squares += z[effect_at_ + i] * z[effect_at_ + i];
  const double was = luck(z);
  z[luck_at_] = moved_along(
      z[luck_at_],
      [&](double at) {
        const double turn = was / log_normal(at, kLuck, kLuckSpread);
        return -at * at / 2 + static_cast<double>(effects) * std::log(turn) -
               squares * turn * turn / 2;
      },
      dice);
  const double turn = was / luck(z);
  for (std::size_t i = 0; i < effects; ++i) z[effect_at_ + i] *= turn;
  for (std::size_t row = 0; row < properties_.size(); ++row) {
    const std::span<double> offsets(z.data() + offset_at_ + row * oils_.size(), oils_.size());
    double& own = z[scale_at_ + row];
    std::vector<double> values;
    for (const double offset : offsets) values.push_back(half_normal(own) * student4(offset));
    own = moved_along(
        own,
        [&](double at) {
          const double scale = half_normal(at);
          double sum = -at * at / 2;
          for (const double value : values)
            sum += log_student4_density(value / scale) - std::log(scale);
          return sum;
        },
        dice);
    const double scale = half_normal(own);
    for (std::size_t o = 0; o < values.size(); ++o)
      offsets[o] = normal_of_student4(values[o] / scale);
  }
}

std::vector<std::size_t> NotesModel::readers() const {
  std::vector<std::size_t> out;
  for (std::size_t row = 0; row < properties_.size(); ++row) out.push_back(scale_at_ + row);
  out.push_back(luck_at_);
  for (std::size_t i = hand_at_; i < size_; ++i) out.push_back(i);
  return out;
}

targets::MakerNotes NotesModel::simulated(std::span<const double> z, Dice& dice) const {
  targets::MakerNotes out = notes_;
  const std::vector<double> at = predictors(z);
  const Hands read = hands(z);
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    const Piece& piece = pieces_[i];
    if (piece.kind == Kind::verdict) {
      for (Verdict& verdict : out.comparisons[piece.comparison].verdicts) {
        const double felt = at[i] + read.noise(piece.blind) * dice.normal();
        verdict = verdict_on(felt, read);
        if (dice.uniform() < read.slips)
          verdict = static_cast<Verdict>(
              static_cast<std::size_t>(dice.uniform() * targets::kVerdictCount));
      }
    } else if (piece.kind != Kind::order && !piece.at_least) {
      out.measurements[piece.measurement].readings[piece.reading].figure = std::exp(
          at[i] + read.unit[static_cast<std::size_t>(piece.means)] * student4(dice.normal()));
    }
  }
  return out;
}

}  // namespace barwright::tune
