#include "oils/records/certificate_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/chemistry/alkali.hpp"
#include "core/units/number_text.hpp"
#include "oils/records/record_reader.hpp"

namespace barwright::oils {

using yaml::Node;
using Weight = Finding::Weight;

namespace {

constexpr double kMostSaponification = 560;  // mg KOH/g: tributyrin has 557
constexpr double kMostIodine = 400;          // g I2/100 g

/// A number and the words after it, which are its unit.
struct Measured {
  double value;
  std::string unit;  ///< lower case, no spaces
};

Measured measured(const Node& node, const std::string& wanted) {
  const std::string text = node.text();
  const std::size_t split = text.find_first_not_of("0123456789.");
  if (split == 0 || split == std::string::npos) {
    if (split == std::string::npos)
      node.fail(fmt::format("'{}' has no unit", text), "Write it as in '" + wanted + "'.");
    node.fail(fmt::format("'{}' is not a figure and its unit", text),
              "Write it as in '" + wanted + "'.");
  }
  const std::string number = text.substr(0, split);
  Measured out{0, {}};
  const auto read = core::read_number(number.data(), number.data() + number.size(), out.value);
  if (read.ec != std::errc() || read.ptr != number.data() + number.size())
    node.fail(fmt::format("'{}' is not a number", number), "Write it as in '" + wanted + "'.");
  for (const char c : text.substr(split)) {
    if (c == ' ') continue;
    out.unit += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (out.unit.empty())
    node.fail(fmt::format("'{}' has no unit", text), "Write it as in '" + wanted + "'.");
  return out;
}

double bounded(const Node& node, double value, double most) {
  if (!(value >= 0) || value > most)
    node.fail(fmt::format("{} cannot be: it must lie between 0 and {}", value, most),
              "Check the figure and its unit against the certificate.");
  return value;
}

double read_saponification(const Node& node) {
  const Measured read = measured(node, "188.4 mg KOH/g");
  if (read.unit == "mgkoh/g") return bounded(node, read.value, kMostSaponification);
  if (read.unit == "mgnaoh/g") return bounded(node, read.value * kKohPerNaoh, kMostSaponification);
  node.fail(fmt::format("'{}' is not a unit of saponification values", node.text()),
            "Write mg KOH/g, or mg NaOH/g if the certificate counts in sodium hydroxide.");
}

double read_iodine(const Node& node) {
  const Measured read = measured(node, "82 g I2/100 g");
  if (read.unit != "gi2/100g" && read.unit != "g/100g")
    node.fail(fmt::format("'{}' is not a unit of iodine values", node.text()), "Write g I2/100 g.");
  return bounded(node, read.value, kMostIodine);
}

double read_percent(const Node& node) { return bounded(node, 100 * node.fraction(), 100); }

Certificate certificate_of(const Record& record) {
  const Oil& oil = record.oil;
  Certificate out;
  out.place = record.acid_sum > 0 ? record.acids_place : oil.place;
  const auto has = [&](const char* key) {
    return std::find(record.missing.begin(), record.missing.end(), key) == record.missing.end();
  };
  if (has("saponification-value")) out.saponification_value = oil.saponification_value.span.typical;
  if (has("iodine-value")) out.iodine_value = oil.iodine_value.span.typical;
  if (has("unsaponifiable")) out.unsaponifiable = oil.unsaponifiable.span.typical;
  for (std::size_t i = 0; i < oil.acids.size(); ++i)
    if (oil.acids[i]) out.acids[i] = oil.acids[i]->span.typical;
  return out;
}

}  // namespace

std::string read_reason(const Node& node) {
  const std::string text = node.text();
  const std::string folded = folded_name(text);
  static const std::array<std::string_view, 9> kNoReason = {"",   "yes", "no",        "y",   "true",
                                                            "ok", "on",  "confirmed", "sure"};
  if (std::find(kNoReason.begin(), kNoReason.end(), folded) != kNoReason.end())
    node.fail("'" + text + "' gives no reason",
              "Write how you know, such as 'second analysis agrees'.");
  return text;
}

Record read_own_record(const Node& root, const Library& library) {
  Record record = read_record(root, library);
  Certificate certificate = certificate_of(record);
  certificate.confirmed = record.confirmed;
  // A wax's acids are no measure of it, and a record without its like has only its own acids.
  const Oil* like = library.find(record.like.empty() ? record.oil.name : record.like);
  record.oil.confirmed = confirmation(certificate, record.oil.form, like,
                                      "your record of '" + record.oil.name + "'", root);
  // A record is of the oil, not of one lot: only a lot's own certificate narrows the lye's doubt.
  for (core::Mark* mark :
       {&record.oil.saponification_value.mark, &record.oil.saponification_value.range_mark})
    if (*mark == core::Mark::certificate) *mark = core::Mark::read;
  return record;
}

Certificate read_certificate(const Node& block) {
  block.only(
      {"ref", "saponification-value", "iodine-value", "unsaponifiable", "acids", "confirmed"});
  Certificate out;
  out.place = block.place();
  if (const auto node = block.get("confirmed")) out.confirmed = read_reason(*node);
  if (const auto node = block.get("ref")) out.reference = node->text();
  if (const auto node = block.get("saponification-value"))
    out.saponification_value = read_saponification(*node);
  if (const auto node = block.get("iodine-value")) out.iodine_value = read_iodine(*node);
  if (const auto node = block.get("unsaponifiable")) out.unsaponifiable = read_percent(*node);
  if (const auto acids = block.get("acids")) {
    for (const auto& [key, value] : acids->entries()) {
      const auto acid = core::find_acid(key.text());
      if (!acid) {
        std::vector<std::string> known;
        for (const auto& facts : core::acid_facts()) known.emplace_back(facts.key);
        key.fail(fmt::format("no fatty acid is written '{}'", key.text()),
                 fmt::format("Known are {}.", fmt::join(known, ", ")));
      }
      auto& slot = out.acids[static_cast<std::size_t>(*acid)];
      if (slot) key.fail("this acid stands here a second time", "Keep one of the two.");
      slot = read_percent(value);
    }
    if (std::abs(out.acid_sum() - 100) > kCertificateAcidSlack)
      acids->fail(
          fmt::format("the certificate's acids sum to {:.1f} %, not to 100", out.acid_sum()),
          "Add the acids left out, or correct a figure: they are % of all fatty acids.");
  }
  if (!out.saponification_value && !out.iodine_value && !out.unsaponifiable && !out.has_acids())
    block.fail("the certificate holds no figure",
               "Give its saponification value, or leave 'certificate' out.");
  return out;
}

RecordReport check_record(const Node& root, const Library& library) {
  Record record = read_record(root, library, Completeness::partial);
  RecordReport report;
  report.certificate = certificate_of(record);
  const Oil* like = library.find(record.like.empty() ? record.oil.name : record.like);
  if (like != nullptr) report.like = like->name;
  report.findings = question(report.certificate, record.oil.form, like);
  if (!report.certificate.unsaponifiable)
    report.findings.push_back(
        {Weight::note, "No unsaponifiable matter.", "Ask the supplier for it.", record.oil.place});
  if (like == nullptr)
    report.findings.push_back(
        {Weight::note,
         fmt::format("The library knows no '{}': nothing published was compared.", record.oil.name),
         "Add 'like: ' with the library's name of the oil it is a lot of.", record.oil.place});
  try {
    read_record(root, library, Completeness::whole);
    report.whole = true;
  } catch (const core::InputError& error) {
    report.findings.push_back({Weight::note,
                               "As it stands it cannot join the library: " + error.message() + ".",
                               error.remedy(), error.place()});
  }
  report.oil = std::move(record.oil);
  return report;
}

RecordReport check_record_file(const std::string& path, const Library& library) {
  return check_record(yaml::Document::from_file(path).root(), library);
}

}  // namespace barwright::oils
