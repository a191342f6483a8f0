#include "oils/records/certificate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/chemistry/saponification.hpp"
#include "core/lye/lye.hpp"

namespace barwright::oils {

using core::Figure;
using core::Mark;
using Weight = Finding::Weight;
using yaml::Node;

namespace {

Figure exactly(double value, const std::string& source) {
  return {{value, value, value}, source, Mark::certificate, source, Mark::certificate};
}

core::AcidProfile scaled(const Certificate& certificate) {
  core::AcidProfile profile{};
  const double sum = certificate.acid_sum();
  for (std::size_t i = 0; i < profile.size(); ++i)
    profile[i] = certificate.acids[i].value_or(0) / sum;
  return profile;
}

bool usable(double acid_sum) { return std::abs(acid_sum - 100) <= kCertificateAcidSlack; }

void against_range(double value, const Figure& figure, const std::string& what,
                   const std::string& unit, const Oil& like, const core::Place& place,
                   std::vector<Finding>& out) {
  if (value >= figure.span.low && value <= figure.span.high) return;
  const std::string& source = figure.range_source.empty() ? figure.source : figure.range_source;
  out.push_back({Weight::question,
                 fmt::format("{} {} {} is outside the {} to {} published for {} ({}, {}).", what,
                             value, unit, figure.span.low, figure.span.high, like.name, source,
                             core::word(figure.range_mark)),
                 "Ask the supplier whether it is this oil, and whether it is crude, old or mixed.",
                 place});
}

void questions_of_acids(const Certificate& certificate, Form form, const Oil* like,
                        std::vector<Finding>& out) {
  const double sum = certificate.acid_sum();
  if (!usable(sum)) {
    out.push_back({Weight::fault, fmt::format("Its fatty acids sum to {:.1f} %, not to 100.", sum),
                   "Add the acids left out, or correct a figure: they are % of all fatty acids.",
                   certificate.place});
    return;
  }
  if (form == Form::wax) {
    out.push_back({Weight::note, "It is a wax: no figure is worked out from its acids.", "",
                   certificate.place});
    return;
  }
  double unsaponifiable =
      certificate.unsaponifiable.value_or(like != nullptr ? like->unsaponifiable.span.typical : 0);
  unsaponifiable = std::clamp(unsaponifiable, 0.0, 99.0);
  for (const core::CertificateQuestion& asked :
       core::question_certificate(scaled(certificate), fat_form(form), 1 - unsaponifiable / 100,
                                  certificate.saponification_value, certificate.iodine_value))
    out.push_back({Weight::question, asked.text,
                   "Ask the supplier for both analyses of this lot; use neither figure until then.",
                   certificate.place});
  if (like == nullptr) return;
  for (const core::AcidFacts& facts : core::acid_facts()) {
    const auto i = static_cast<std::size_t>(facts.acid);
    if (!certificate.acids[i] && !like->acids[i]) continue;
    const Figure none = exactly(0, "");
    const Figure& known = like->acids[i] ? *like->acids[i] : none;
    const double value = certificate.acids[i].value_or(0);
    // Half a per cent beyond the range is within what two laboratories differ by (judgement).
    if (value >= known.span.low - 0.5 && value <= known.span.high + 0.5) continue;
    if (!like->acids[i])
      out.push_back({Weight::note,
                     fmt::format("{} ({}) {} %: none is published for {}.", facts.key, facts.name,
                                 value, like->name),
                     "", certificate.place});
    else
      out.push_back({Weight::note,
                     fmt::format("{} ({}) {} % is outside the {} to {} % of {} ({}).", facts.key,
                                 facts.name, value, known.span.low, known.span.high, like->name,
                                 core::word(known.range_mark)),
                     "", certificate.place});
  }
}

/// The range the saponification value of an oil is taken to lie in, widened by its own doubt.
core::Span believable(const Oil& like) {
  core::PotFat fat;
  fat.saponification_value = like.saponification_value.span;
  core::Span span = core::judged_span(fat);
  span.low *= 1 - core::kCertifiedSpread;
  span.high *= 1 + core::kCertifiedSpread;
  return span;
}

bool inside(double value, const core::Span& span) {
  return value >= span.low && value <= span.high;
}

/// Whether the figure would fit had it been counted in the other alkali.
std::string unit_question(double value, const core::Span& span) {
  for (const double other : {value / kKohPerNaoh, value * kKohPerNaoh}) {
    if (inside(other, span))
      return fmt::format(" Counted in the other alkali it would be {:.1f}: is the unit right?",
                         other);
  }
  return "";
}

}  // namespace

std::vector<Finding> lye_doubts(const Certificate& certificate, Form form, const Oil* like) {
  std::vector<Finding> out;
  const core::Place& place = certificate.place;
  std::optional<double> from_acids;
  if (certificate.has_acids() && form != Form::wax && usable(certificate.acid_sum())) {
    const double unsaponifiable = std::clamp(
        certificate.unsaponifiable.value_or(like ? like->unsaponifiable.span.typical : 0), 0.0,
        99.0);
    for (const auto& asked :
         core::question_certificate(scaled(certificate), fat_form(form), 1 - unsaponifiable / 100,
                                    certificate.saponification_value, certificate.iodine_value))
      out.push_back({Weight::question, asked.text, "Ask the supplier for both analyses.", place});
    from_acids = core::calculated_saponification_value(scaled(certificate), fat_form(form),
                                                       1 - unsaponifiable / 100);
  }
  if (like == nullptr) return out;
  const core::Span span = believable(*like);
  const auto against = [&](double value, const std::string& what) {
    if (inside(value, span)) return;
    const Figure& figure = like->saponification_value;
    out.push_back(
        {Weight::question,
         fmt::format("{} {:.1f} mg KOH/g is outside the {:g} to {:g} published for {}, even with "
                     "its doubt ({:.1f} to {:.1f}).{}",
                     what, value, figure.span.low, figure.span.high, like->name, span.low,
                     span.high, unit_question(value, span)),
         "Ask the supplier whether it is this oil.", place});
  };
  if (certificate.saponification_value)
    against(*certificate.saponification_value, "Saponification value");
  else if (from_acids)
    against(*from_acids, "The saponification value its acids give,");
  return out;
}

std::string confirmation(const Certificate& certificate, Form form, const Oil* like,
                         const std::string& what, const Node& block) {
  const auto doubts = lye_doubts(certificate, form, like);
  const auto figure = block.get("saponification-value");
  const Node& at = figure ? *figure : block;
  if (doubts.empty()) {
    if (!certificate.confirmed.empty())
      block.need("confirmed")
          .fail("nothing of " + what + " is in doubt, so nothing is confirmed",
                "Take 'confirmed' out.");
    return {};
  }
  if (certificate.confirmed.empty())
    at.fail(fmt::format("{}: {}", what, doubts.front().text),
            doubts.front().remedy +
                " Is it right, write why beside it: 'confirmed: \"second analysis agrees\"'; it is "
                "then said beside every recipe.");
  return fmt::format("{}: {} Taken all the same, because you confirmed it: {}.", what,
                     doubts.front().text, certificate.confirmed);
}

bool Certificate::has_acids() const {
  return std::any_of(acids.begin(), acids.end(), [](const auto& acid) { return acid.has_value(); });
}

double Certificate::acid_sum() const {
  double sum = 0;
  for (const auto& acid : acids) sum += acid.value_or(0);
  return sum;
}

Oil certified(const Oil& oil, const Certificate& certificate) {
  Oil out = oil;
  const std::string source =
      certificate.reference.empty() ? "certificate" : "certificate " + certificate.reference;
  if (certificate.unsaponifiable) out.unsaponifiable = exactly(*certificate.unsaponifiable, source);
  if (certificate.has_acids()) {
    if (!usable(certificate.acid_sum()))
      throw std::invalid_argument("a certificate's acids must sum to 100 %");
    const core::AcidProfile profile = scaled(certificate);
    for (std::size_t i = 0; i < profile.size(); ++i)
      out.acids[i] =
          profile[i] > 0 ? std::optional(exactly(100 * profile[i], source)) : std::nullopt;
    const auto follow = [](Figure& figure, std::optional<double> value, const char* formula) {
      if (!value) return;
      figure.span.typical = *value;
      figure.span.low = std::min(figure.span.low, *value);
      figure.span.high = std::max(figure.span.high, *value);
      figure.source = formula;
      figure.mark = Mark::computed;
    };
    follow(out.saponification_value, saponification_value_from_acids(out), "harmonic-mean");
    follow(out.iodine_value, iodine_value_from_acids(out), "iodine-factors");
  }
  if (certificate.saponification_value)
    out.saponification_value = exactly(*certificate.saponification_value, source);
  if (certificate.iodine_value) out.iodine_value = exactly(*certificate.iodine_value, source);
  return out;
}

std::vector<Finding> question(const Certificate& certificate, Form form, const Oil* like) {
  std::vector<Finding> out;
  const core::Place& place = certificate.place;
  if (certificate.has_acids()) questions_of_acids(certificate, form, like, out);
  if (like != nullptr) {
    if (certificate.saponification_value)
      against_range(*certificate.saponification_value, like->saponification_value,
                    "Saponification value", "mg KOH/g", *like, place, out);
    if (certificate.iodine_value)
      against_range(*certificate.iodine_value, like->iodine_value, "Iodine value", "g I2/100 g",
                    *like, place, out);
    if (certificate.unsaponifiable)
      against_range(*certificate.unsaponifiable, like->unsaponifiable, "Unsaponifiable matter", "%",
                    *like, place, out);
  }
  if (!certificate.saponification_value)
    out.push_back(
        {Weight::note,
         "No saponification value: the lye rests on the published range, as wide as it is.",
         "Ask the supplier for it; it is the one figure the lye needs.", place});
  if (!certificate.iodine_value)
    out.push_back({Weight::note, "No iodine value.", "Ask the supplier for it.", place});
  if (!certificate.has_acids() && form != Form::wax)
    out.push_back({Weight::note,
                   "No fatty acids: its own figures cannot be held against each other.",
                   "Ask the supplier for the fatty-acid composition.", place});
  std::stable_sort(out.begin(), out.end(),
                   [](const Finding& a, const Finding& b) { return a.weight > b.weight; });
  return out;
}

}  // namespace barwright::oils
