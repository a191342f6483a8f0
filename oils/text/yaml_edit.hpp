#pragma once

#include <optional>
#include <string>

namespace barwright::oils::yaml {

/// What an edit did to a file.
struct Edited {
  std::string text;                ///< the whole file
  std::optional<std::string> was;  ///< the value before, as written; nothing: the key is new
};

/// Returns a YAML file with one value changed, every other byte as it was (comments, quotes, line
/// ends). `path` names keys from the root with full stops between them: "want.hardness"; a key that
/// holds one stands in double quotes; an entry of a list by its number from 0, one past the end
/// adds one. A key that is not there is added to its block, and a block of the file's own with it.
/// `value` is a plain text, quoted where it must be, or a whole list or block in brackets ("{most:
/// 30 %}"). The result is read back, and must differ from the file in this value only. `name`
/// stands for the file in errors. Errors: InputError.
Edited with_value(const std::string& text, const std::string& name, const std::string& path,
                  const std::string& value);
/// Returns it without a key or an entry of a list, the rest of its line with it. Errors:
/// InputError.
Edited without_value(const std::string& text, const std::string& name, const std::string& path);

}  // namespace barwright::oils::yaml
