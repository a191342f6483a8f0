#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/figure.hpp"
#include "oils/records/library.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// Where figures come from when a line does not say so itself (`acids: from`).
struct Provenance {
  std::string source;
  core::Mark mark = core::Mark::judgement;
  std::string range_source;
  core::Mark range_mark = core::Mark::judgement;
};

/// Reads `{typical: 9, low: 8, high: 10, source: key, mark: read, range-source: key, ...}`.
class FigureReader {
 public:
  /// `own` are works the record brings itself.
  FigureReader(const Library& library, const std::vector<Source>& own);

  /// Returns source and mark of a block. Errors: missing, unknown.
  Provenance provenance(const yaml::Node& block) const;
  /// Returns a figure within [least, most]. `extra` keys are left to the caller.
  /// Errors: InputError for unknown keys and sources, figures that are none, typical outside low
  /// to high, a range missing (only a certificate's single figure may do without).
  core::Figure figure(const yaml::Node& block, double least, double most,
                      const std::optional<Provenance>& inherited = std::nullopt,
                      std::initializer_list<std::string_view> extra = {}) const;

 private:
  std::string source(const yaml::Node& node) const;
  core::Mark mark(const yaml::Node& node) const;

  std::map<std::string, bool> known_;
};

}  // namespace barwright::oils
