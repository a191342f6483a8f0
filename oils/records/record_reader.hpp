#pragma once

#include <string>
#include <utility>
#include <vector>

#include "oils/records/library.hpp"
#include "oils/records/oil.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// How much a record must hold.
enum class Completeness {
  whole,    ///< a library record: every figure that the arithmetic needs
  partial,  ///< a record typed from a certificate: what is not there is listed
};

/// One record as read from a file.
struct Record {
  Oil oil;
  std::vector<Source> own_sources;   ///< works the record brings itself
  std::string like;                  ///< the library oil it is a lot of, where the record says so
  std::vector<std::string> missing;  ///< `partial` only: keys of figures that are not there
  std::string confirmed;  ///< the maker's reason for a figure that is doubted; may be empty
  double acid_sum = 0;    ///< % of the fatty acids that the record accounts for
  core::Place acids_place;
};

/// A word that may mean several oils.
struct AmbiguousWord {
  std::string word;
  std::vector<std::string> oils;  ///< of the library, by name
  std::string not_kept;           ///< what else it may mean, in words; empty: nothing
};

/// Returns the oil a record describes, its figures checked: units stated, source and mark beside
/// each, typical inside low to high, acids summing to 100 +- 0.1.
/// Errors: InputError at file, line and column.
Record read_record(const yaml::Node& root, const Library& library,
                   Completeness completeness = Completeness::whole);

/// Readers of the files the records share. Errors: InputError at file, line and column.
std::vector<Source> read_sources(const yaml::Node& root);
std::string read_edition(const yaml::Node& root);  ///< yyyy-mm-dd
std::vector<Tag> read_tags(const yaml::Node& root);
std::vector<AmbiguousWord> read_ambiguous(const yaml::Node& root);

}  // namespace barwright::oils
