#pragma once

#include <charconv>
#include <string>

// Numbers as text, with the same bytes on every platform: some standard libraries have
// std::to_chars and std::from_chars for whole numbers only.
namespace barwright::core {

/// Returns the shortest text that reads back as this very number ("0.1", "1e+22"), as std::to_chars
/// writes it.
std::string number_text(double value);
/// Returns a finite number with this many decimals, at most 300; "-0.0" stays.
std::string number_text(double value, int decimals);
/// Reads a finite number at `first` as std::from_chars does: no blank, no plus sign before it, a
/// full stop whatever the locale. Returns where it ends, and what went wrong.
std::from_chars_result read_number(const char* first, const char* last, double& value);

/// The three by the C library alone; what stands in where the standard library lacks them.
namespace portable {
std::string number_text(double value);
std::string number_text(double value, int decimals);
std::from_chars_result read_number(const char* first, const char* last, double& value);
}  // namespace portable

}  // namespace barwright::core
