#include "oils/records/oil.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace barwright::oils {

using core::Figure;
using core::Mark;

const char* word(Form form) {
  switch (form) {
    case Form::triglyceride:
      return "triglyceride";
    case Form::wax:
      return "wax";
    case Form::free_acid:
      return "free acid";
  }
  return "triglyceride";
}

core::FatForm fat_form(Form form) {
  switch (form) {
    case Form::triglyceride:
      return core::FatForm::triglyceride;
    case Form::wax:
      return core::FatForm::wax;
    case Form::free_acid:
      return core::FatForm::free_acid;
  }
  return core::FatForm::triglyceride;
}

core::AcidProfile Oil::typical_profile() const {
  core::AcidProfile profile{};
  double sum = 0;
  for (std::size_t i = 0; i < acids.size(); ++i)
    if (acids[i]) sum += profile[i] = acids[i]->span.typical;
  if (sum > 0)
    for (double& share : profile) share /= sum;
  return profile;
}

bool Oil::has_acids() const {
  return std::any_of(acids.begin(), acids.end(),
                     [](const auto& acid) { return acid && acid->span.typical > 0; });
}

bool Oil::lye_figure_unread() const { return weakest_mark(saponification_value) > Mark::computed; }

std::string Oil::lye_caution() const {
  if (!lye_figure_unread()) return {};
  const Mark typical = saponification_value.mark;
  const Mark range = saponification_value.range_mark;
  const Mark weakest = weakest_mark(saponification_value);
  const bool both = typical > Mark::computed && range > Mark::computed;
  const char* which = both                       ? "typical figure and range"
                      : typical > Mark::computed ? "typical figure"
                                                 : "range";
  const char* how = weakest == Mark::recalled    ? "only recalled, not read in a source"
                    : weakest == Mark::judgement ? "our own judgement"
                                                 : "common practice without a source";
  return fmt::format(
      "{}: the {} of its saponification value {} {}. Use the figure on your supplier's "
      "certificate.",
      name, which, both ? "are" : "is", how);
}

Mark weakest_mark(const Figure& figure) { return std::max(figure.mark, figure.range_mark); }

std::optional<Mark> find_mark(const std::string& text) {
  for (const Mark mark : {Mark::certificate, Mark::read, Mark::computed, Mark::practice,
                          Mark::recalled, Mark::judgement})
    if (text == core::word(mark)) return mark;
  return std::nullopt;
}

std::string provenance(const Figure& figure) {
  const std::string& range = figure.range_source.empty() ? figure.source : figure.range_source;
  if (range == figure.source && figure.mark == figure.range_mark)
    return fmt::format("{}, {}", figure.source, core::word(figure.mark));
  return fmt::format("typical {}, {}; range {}, {}", figure.source, core::word(figure.mark), range,
                     core::word(figure.range_mark));
}

std::optional<double> saponification_value_from_acids(const Oil& oil) {
  if (oil.form == Form::wax || !oil.has_acids()) return std::nullopt;
  return core::calculated_saponification_value(oil.typical_profile(), fat_form(oil.form),
                                               1 - oil.unsaponifiable.span.typical / 100);
}

std::optional<double> iodine_value_from_acids(const Oil& oil) {
  if (oil.form == Form::wax || !oil.has_acids()) return std::nullopt;
  return core::calculated_iodine_value(oil.typical_profile(), fat_form(oil.form),
                                       1 - oil.unsaponifiable.span.typical / 100);
}

}  // namespace barwright::oils
