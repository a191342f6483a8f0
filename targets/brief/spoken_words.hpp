#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barwright::targets {

/// A spoken wish in the words of a brief: "hardness", "clearly more"; or a goal.
struct Meant {
  std::string subject, phrase, goal;
  bool cheaper = false;
};

/// Returns what a piece of speech (folded) means by the words of wish_words.yaml, also with the
/// words around it that say nothing ("a harder bar"); nothing for one that is not there.
std::optional<Meant> meant_by(const std::string& piece);

/// Returns the word of wish_words.yaml that a piece nearly is, or begins as: "harder" for "hard";
/// empty for none.
std::string nearest_spoken(const std::string& piece);

/// Takes a word off the front of a text and says whether it stood there.
bool take_front(std::string& text, std::string_view word);

/// Takes what stands before "more" or "less", a size or that there is to be no such thing, and
/// returns it with a space after it; "clearly " where nothing stands.
std::string take_size(std::string& text);

}  // namespace barwright::targets
