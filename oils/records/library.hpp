#pragma once

#include <cstddef>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "oils/records/oil.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// One work of the bibliography.
struct Source {
  std::string key;
  std::string work;  ///< author, title, year, page or table
};

/// A word a record may be tagged with.
struct Tag {
  std::string word;
  std::string meaning;
  std::vector<std::string> implies;  ///< tags that come with it
};

/// The oils of a library, in order. Holds no oil itself; what it points to lives as long as the
/// program.
class OilList {
 public:
  class Iterator {
   public:
    using iterator_category = std::forward_iterator_tag;
    using value_type = Oil;
    using difference_type = std::ptrdiff_t;
    using pointer = const Oil*;
    using reference = const Oil&;
    Iterator() = default;
    explicit Iterator(const Oil* const* at) : at_(at) {}
    reference operator*() const { return **at_; }
    pointer operator->() const { return *at_; }
    Iterator& operator++() { return ++at_, *this; }
    Iterator operator++(int) { return Iterator(at_++); }
    bool operator==(const Iterator&) const = default;

   private:
    const Oil* const* at_ = nullptr;
  };
  explicit OilList(std::vector<const Oil*> oils) : oils_(std::move(oils)) {}
  Iterator begin() const { return Iterator(oils_.data()); }
  Iterator end() const { return Iterator(oils_.data() + oils_.size()); }
  std::size_t size() const { return oils_.size(); }
  const Oil& operator[](std::size_t i) const { return *oils_[i]; }

 private:
  std::vector<const Oil*> oils_;
};

/// All oils known, with the bibliography their figures point into. A record, once in any library,
/// is never changed or freed while the program runs: an oil that was looked up stays good however
/// the library, or the shelf that holds it, changes or goes. Equal records are kept once.
class Library {
 public:
  /// Returns the library compiled into the program.
  static Library embedded();
  /// Reads every *.yaml of a folder over this library: a record of a known name replaces it, a new
  /// one joins. Its sources.yaml, tags.yaml and ambiguous.yaml, where present, add to ours.
  /// Errors: InputError at file, line and column; nothing is taken in when any file fails.
  void add_folder(const std::string& folder);
  /// Adds or replaces one record. Errors: InputError when one of its names belongs to another oil.
  void add(Oil oil);

  /// Returns the day, yyyy-mm-dd, the library compiled into the program was last changed.
  const std::string& edition() const { return edition_; }
  OilList oils() const { return OilList(oils_); }  ///< sorted by name
  const std::map<std::string, Source>& sources() const& { return sources_; }
  const std::map<std::string, Tag>& tags() const& { return tags_; }
  const std::map<std::string, Source>& sources() && = delete;
  const std::map<std::string, Tag>& tags() && = delete;

  /// Returns the oil of this name or synonym (case, spacing, hyphens, accents and a trailing "oil"
  /// folded), or null. A word that may mean several oils finds none: see `meant_by`. What is
  /// returned outlives the library.
  const Oil* find(std::string_view name) const;
  /// Returns the oil a maker's file names here. Errors: InputError at the node; for a word of
  /// several meanings it lists them, for an unknown one the nearest name.
  const Oil& need(const yaml::Node& name) const;
  /// Returns the oils a word such as "tallow" may mean, by name; empty unless it is ambiguous.
  std::vector<std::string> meant_by(std::string_view name) const;
  /// Returns the nearest known name, for an error's remedy; empty when nothing is near.
  std::string nearest(std::string_view name) const;
  /// Returns what to say of a name that `find` does not know: a whole sentence.
  core::Remedy remedy_for(std::string_view name) const;

  /// Returns the oils that carry a tag, its own or implied, sorted by name.
  std::vector<const Oil*> with_tag(const std::string& tag) const;
  bool knows_tag(const std::string& tag) const { return tags_.contains(tag); }
  /// Returns the nearest known tag; empty when nothing is near.
  std::string nearest_tag(std::string_view tag) const;

  /// Add to the bibliography, the tags and the ambiguous words; a known key is replaced.
  void add_source(Source source);
  void add_tag(Tag tag);
  void add_ambiguous(const std::string& name, std::vector<std::string> oils,
                     std::string not_kept = {});

 private:
  void take_shared_files(const std::vector<std::pair<std::string, yaml::Node>>& files);
  enum class Whose { ours, makers };
  void take_records(const std::vector<std::pair<std::string, yaml::Node>>& files, Whose whose);
  void remove(const std::string& name);
  /// What an ambiguous word may mean: oils by name, and in words what the library does not hold.
  struct Meanings {
    std::vector<std::string> oils;
    std::string not_kept;
  };
  const Meanings* meanings(std::string_view name) const;
  void check_ambiguous() const;

  std::string edition_;
  std::vector<const Oil*> oils_;
  std::map<std::string, std::string> names_;  // folded name or synonym -> name
  std::map<std::string, Source> sources_;
  std::map<std::string, Tag> tags_;
  std::map<std::string, Meanings> ambiguous_;  // by folded word
};

/// Returns a name as `Library::find` compares it: lower case, hyphens, commas and slashes as
/// spaces, accents off, spaces single.
std::string folded_name(std::string_view name);

}  // namespace barwright::oils
