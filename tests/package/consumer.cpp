// What a project outside sees: the installed headers, and libraries that link.
#include <cstdio>

#include "core/chemistry/saponification.hpp"
#include "oils/records/library.hpp"
#include "solver/jobs/blend_job.hpp"

int main() {
  const auto library = barwright::oils::Library::embedded();
  const auto* olive = library.find("olive");
  if (olive == nullptr) return 1;
  std::printf("%zu oils; olive takes %.1f mg KOH/g\n", library.oils().size(),
              olive->saponification_value.span.typical);
  return library.oils().size() > 50 ? 0 : 1;
}
