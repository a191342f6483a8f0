#include "oils/records/library.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <mutex>

#include "oils/embedded.hpp"
#include "oils/records/certificate.hpp"
#include "oils/records/certificate_reader.hpp"
#include "oils/records/record_reader.hpp"
#include "oils/text/names.hpp"

namespace barwright::oils {

namespace {

using NamedRoots = std::vector<std::pair<std::string, yaml::Node>>;

constexpr std::string_view kSources = "sources.yaml";
constexpr std::string_view kTags = "tags.yaml";
constexpr std::string_view kAmbiguous = "ambiguous.yaml";

bool is_shared_file(std::string_view name) {
  return name == kSources || name == kTags || name == kAmbiguous;
}

/// Letters of Latin-1 (UTF-8 lead byte 0xC3) without their accent; 0 where there is none.
char plain_letter(unsigned char second) {
  static constexpr std::string_view kPlain{"aaaaaa\0ceeeeiiii\0nooooo\0ouuuuy\0\0", 32};
  const std::size_t i = (second & 0x1Fu);
  return i < kPlain.size() ? kPlain[i] : '\0';
}

/// Returns the one copy of a record that the program keeps until it ends.
const Oil* kept(Oil oil) {
  static std::mutex door;
  static std::map<std::string, std::vector<std::unique_ptr<const Oil>>> all;
  const std::lock_guard<std::mutex> hold(door);
  auto& same_name = all[oil.name];
  for (const auto& known : same_name) {
    if (*known == oil) return known.get();
  }
  same_name.push_back(std::make_unique<const Oil>(std::move(oil)));
  return same_name.back().get();
}

std::string_view without_ending(std::string_view text, std::string_view ending) {
  if (text.size() > ending.size() && text.ends_with(ending))
    return text.substr(0, text.size() - ending.size());
  return text;
}

}  // namespace

std::string folded_name(std::string_view name) {
  std::string out;
  const auto put = [&out](char c) {
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  };
  for (std::size_t i = 0; i < name.size(); ++i) {
    const char c = name[i];
    const auto byte = static_cast<unsigned char>(c);
    if (byte == 0xC3 && i + 1 < name.size()) {
      const char plain = plain_letter(static_cast<unsigned char>(name[i + 1]));
      if (plain != '\0') {
        put(plain);
        ++i;
        continue;
      }
    }
    if (c >= 'A' && c <= 'Z')
      put(static_cast<char>(c - 'A' + 'a'));
    else if (c == '-' || c == '_' || c == ',' || c == '/' || c == '\t' || c == '\n')
      put(' ');
    else
      put(c);
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

Library Library::embedded() {
  // Read once: the bytes cannot change while the program runs.
  static const Library library = [] {
    Library fresh;
    NamedRoots files;
    for (const EmbeddedFile& file : embedded_files())
      files.emplace_back(file.name, yaml::Document::from_tree(file.tree, file.text,
                                                              "library/" + std::string(file.name))
                                        .root());
    fresh.take_shared_files(files);
    fresh.take_records(files, Whose::ours);
    fresh.check_ambiguous();
    for (const auto& [name, root] : files)
      if (name == kSources) fresh.edition_ = read_edition(root);
    return fresh;
  }();
  return library;
}

void Library::add_folder(const std::string& folder) {
  namespace fs = std::filesystem;
  std::error_code error;
  if (!fs::is_directory(folder, error))
    throw core::InputError({folder, 0, 0}, "there is no folder of this name to read oils from",
                           "Name a folder that holds one .yaml record per oil.");
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".yaml" || entry.path().extension() == ".yml")
      names.push_back(entry.path().filename().string());
  if (names.empty())
    throw core::InputError({folder, 0, 0}, "no .yaml file lies in this folder",
                           "Put one .yaml record per oil there, or leave --library out.");
  std::sort(names.begin(), names.end());
  NamedRoots files;
  for (const std::string& name : names)
    files.emplace_back(name, yaml::Document::from_file((fs::path(folder) / name).string()).root());
  Library next = *this;
  next.take_shared_files(files);
  next.take_records(files, Whose::makers);
  next.check_ambiguous();
  *this = std::move(next);
}

void Library::take_shared_files(const NamedRoots& files) {
  for (const auto& [name, root] : files) {
    if (name == kSources)
      for (Source& source : read_sources(root)) add_source(std::move(source));
    if (name == kTags)
      for (Tag& tag : read_tags(root)) add_tag(std::move(tag));
    if (name == kAmbiguous)
      for (AmbiguousWord& one : read_ambiguous(root))
        add_ambiguous(one.word, std::move(one.oils), std::move(one.not_kept));
  }
}

void Library::take_records(const NamedRoots& files, Whose whose) {
  std::map<std::string, core::Place> seen;
  std::vector<Oil> fresh_oils;
  for (const auto& [name, root] : files) {
    if (is_shared_file(name)) continue;
    Record record =
        whose == Whose::makers ? read_own_record(root, *this) : read_record(root, *this);
    const auto [first, fresh] = seen.emplace(folded_name(record.oil.name), record.oil.place);
    if (!fresh)
      root.need("oil").fail(
          fmt::format("the oil '{}' has a second record here", record.oil.name),
          fmt::format("Its first stands in {}. Keep one of the two.", first->second.file));
    for (Source& source : record.own_sources) add_source(std::move(source));
    fresh_oils.push_back(std::move(record.oil));
  }
  // What is replaced goes first, so that the order of the files does not matter.
  for (const Oil& oil : fresh_oils) remove(oil.name);
  for (Oil& oil : fresh_oils) add(std::move(oil));
}

void Library::remove(const std::string& name) {
  const std::string key = folded_name(name);
  const auto known = names_.find(key);  // every oil is known by its own name
  if (known == names_.end() || folded_name(known->second) != key) return;
  std::erase_if(oils_, [&](const Oil* other) { return folded_name(other->name) == key; });
  std::erase_if(names_, [&](const auto& entry) { return folded_name(entry.second) == key; });
}

void Library::check_ambiguous() const {
  for (const auto& [word, may] : ambiguous_) {
    if (names_.contains(word))
      throw core::InputError(
          {std::string(kAmbiguous), 0, 0},
          fmt::format("'{}' is listed as ambiguous but names an oil", word),
          fmt::format("Take it from the list, or from the names of '{}'.", names_.at(word)));
    for (const std::string& name : may.oils)
      if (find(name) == nullptr)
        throw core::InputError({std::string(kAmbiguous), 0, 0},
                               fmt::format("'{}' may not mean '{}': no such oil", word, name),
                               remedy_for(name));
  }
}

void Library::add(Oil oil) {
  std::map<std::string, std::string> own;
  own.emplace(folded_name(oil.name), oil.name);
  for (const std::string& synonym : oil.synonyms) own.emplace(folded_name(synonym), synonym);
  for (const auto& [folded, written] : own) {
    const auto taken = names_.find(folded);
    if (taken == names_.end() || folded_name(taken->second) == folded_name(oil.name)) continue;
    throw core::InputError(
        oil.place, fmt::format("the name '{}' belongs to '{}' already", written, taken->second),
        fmt::format("Choose another name, or call this record '{}' to put it in that one's place.",
                    taken->second));
  }
  remove(oil.name);
  for (const auto& [folded, written] : own) names_[folded] = oil.name;
  // A name given to an oil on purpose is ambiguous no more.
  for (const auto& [folded, written] : own) ambiguous_.erase(folded);
  const auto at = std::lower_bound(oils_.begin(), oils_.end(), oil.name,
                                   [](const Oil* a, const std::string& b) { return a->name < b; });
  oils_.insert(at, kept(std::move(oil)));
}

const Oil* Library::find(std::string_view name) const {
  const std::string folded = folded_name(name);
  auto known = names_.find(folded);
  // What is asked about as it stands is not taken for what is left of it: tucuma oil, shea oil.
  if (known == names_.end() && !ambiguous_.contains(folded)) {
    const std::string bare(without_ending(folded, " oil"));
    known = names_.find(bare);
  }
  if (known == names_.end()) return nullptr;
  return *std::lower_bound(oils_.begin(), oils_.end(), known->second,
                           [](const Oil* a, const std::string& b) { return a->name < b; });
}

const Oil& Library::need(const yaml::Node& name) const {
  const std::string text = name.text();
  if (const Oil* oil = find(text)) return *oil;
  name.fail(meant_by(text).empty() ? fmt::format("no oil called '{}' is known", text)
                                   : fmt::format("'{}' may mean more than one oil", text),
            remedy_for(text));
}

const Library::Meanings* Library::meanings(std::string_view name) const {
  if (find(name) != nullptr) return nullptr;
  const std::string folded = folded_name(name);
  auto found = ambiguous_.find(folded);
  if (found == ambiguous_.end())
    found = ambiguous_.find(std::string(without_ending(folded, " oil")));
  return found == ambiguous_.end() ? nullptr : &found->second;
}

std::vector<std::string> Library::meant_by(std::string_view name) const {
  const Meanings* may = meanings(name);
  return may == nullptr ? std::vector<std::string>{} : may->oils;
}

std::string Library::nearest(std::string_view name) const {
  std::vector<std::string> known;
  for (const Oil* oil : oils_) {
    known.push_back(oil->name);
    known.insert(known.end(), oil->synonyms.begin(), oil->synonyms.end());
  }
  const std::string folded = folded_name(name);
  std::string near = yaml::nearest_name(folded, known);
  if (near.empty()) near = yaml::nearest_name(without_ending(folded, " oil"), known);
  return near;
}

core::Remedy Library::remedy_for(std::string_view name) const {
  const std::vector<std::string> meant = meant_by(name);
  if (!meant.empty()) {
    std::string list;
    for (std::size_t i = 0; i < meant.size(); ++i)
      list += (i == 0 ? "'" : i + 1 == meant.size() ? " or '" : ", '") + meant[i] + "'";
    const std::string& other = meanings(name)->not_kept;
    if (other.empty()) return {"Say which is meant: " + list + ".", meant};
    return {"Say which is meant: " + list + "; or " + other +
                ", which the library does not hold: enter a record of your own, by your "
                "supplier's figures.",
            meant};
  }
  return yaml::did_you_mean(nearest(name),
                            "'barwright oils' lists all names; a record of your own can be added.");
}

std::vector<const Oil*> Library::with_tag(const std::string& tag) const {
  std::vector<const Oil*> out;
  for (const Oil* oil : oils_)
    if (oil->has_tag(tag)) out.push_back(oil);
  return out;
}

std::string Library::nearest_tag(std::string_view tag) const {
  std::vector<std::string> known;
  for (const auto& [word, meaning] : tags_) known.push_back(word);
  return yaml::nearest_name(tag, known);
}

void Library::add_source(Source source) { sources_[source.key] = std::move(source); }
void Library::add_tag(Tag tag) { tags_[tag.word] = std::move(tag); }
void Library::add_ambiguous(const std::string& name, std::vector<std::string> oils,
                            std::string not_kept) {
  ambiguous_[folded_name(name)] = {std::move(oils), std::move(not_kept)};
}

}  // namespace barwright::oils
