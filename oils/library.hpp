#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "oils/oil.hpp"

namespace barwright::oils {

/// One work of the bibliography.
struct Source {
  std::string key;
  std::string work;   ///< author, title, year, page or table
};

/// All oils known, with the bibliography their figures point into.
class Library {
 public:
  /// Returns the library compiled into the program.
  static Library embedded();
  /// Reads every *.yaml of a folder over this library: a record of a known name replaces it, a new
  /// one joins. Errors: InputError at file, line and column.
  void add_folder(const std::string& folder);
  /// Adds or replaces one record.
  void add(Oil oil);

  const std::vector<Oil>& oils() const { return oils_; }          ///< sorted by name
  const std::map<std::string, Source>& sources() const { return sources_; }
  /// Returns the oil of this name or synonym (case and spacing folded), or null.
  const Oil* find(std::string_view name) const;
  /// Returns the nearest known name, for an error's remedy; empty when nothing is near.
  std::string nearest(std::string_view name) const;

 private:
  std::vector<Oil> oils_;
  std::map<std::string, Source> sources_;
};

}  // namespace barwright::oils
