// Run when the program is built: writes a C++ source that holds a folder's data files, their YAML
// parsed by the same strict reader that reads a maker's, so that a start need not parse it.
// Use: barwright_embed OUT.cpp NAMESPACE FILE...

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "oils/text/yaml.hpp"

namespace {

using namespace barwright::oils;

std::string slurp(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  std::string text(std::istreambuf_iterator<char>(stream), {});
  if (!stream) throw std::runtime_error(path + ": cannot be read");
  return text;
}

// A raw string; parted, since a compiler need not take one longer than 64 kB.
std::string literal(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at == 0 || at < text.size(); at += 16000)
    out += "R\"~data~(" + std::string(text.substr(at, 16000)) + ")~data~\"\n";
  return out;
}

std::string nodes(const yaml::Tree& tree) {
  const auto index = [](std::uint32_t at) {
    return at == yaml::kNone ? std::string("N") : std::to_string(at);
  };
  std::string out;
  for (const auto& node : tree.nodes) {
    out += "{K(" + std::to_string(static_cast<unsigned>(node.kind)) + ")";
    for (const std::uint32_t number :
         {node.quoted, node.text_at, node.text_size, node.line, node.column})
      out += "," + std::to_string(number);
    for (const std::uint32_t at : {node.parent, node.key, node.first, node.next})
      out += "," + index(at);
    out += "},\n";
  }
  return out;
}

void write(const std::string& out, const std::string& space, std::vector<std::string> paths) {
  std::sort(paths.begin(), paths.end());
  std::string trees, files;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    const std::string name = std::filesystem::path(paths[i]).filename().string();
    const std::string text = slurp(paths[i]);
    files += "{\"" + name + "\", " + literal(text);
    if (name.ends_with(".yaml")) {
      const auto document = yaml::Document::from_text(text, paths[i]);
      const std::string tree = "kTree" + std::to_string(i);
      trees += "constexpr yaml::TreeNode " + tree + "[] = {\n" + nodes(document.tree()) + "};\n";
      files += ", {" + tree + ", " + literal(document.tree().words) + "}";
    }
    files += "},\n";
  }
  std::ofstream stream(out, std::ios::binary | std::ios::trunc);
  stream << "#include \"oils/embedded.hpp\"\n\nnamespace " << space
         << " {\nnamespace {\nnamespace yaml = barwright::oils::yaml;\nusing K = yaml::Kind;\n"
            "[[maybe_unused]] constexpr auto N = yaml::kNone;\n"
         << trees << "constexpr barwright::oils::EmbeddedFile kFiles[] = {\n"
         << files
         << "};\n}  // namespace\n\nstd::span<const barwright::oils::EmbeddedFile> "
            "embedded_files() { return kFiles; }\n\n}  // namespace "
         << space << "\n";
  stream.close();
  if (!stream) throw std::runtime_error(out + ": cannot be written");
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc < 3) throw std::runtime_error("use: barwright_embed OUT.cpp NAMESPACE FILE...");
    write(argv[1], argv[2], {argv + 3, argv + argc});
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
