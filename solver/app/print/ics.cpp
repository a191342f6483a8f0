#include "solver/app/print/ics.hpp"

#include <fmt/format.h>

#include "core/units/plain_text.hpp"

namespace barwright::app {
namespace {

constexpr std::size_t kMostOctets = 75;

std::string ics_day(const core::Day& day) {
  std::string out = core::text(day);
  std::erase(out, '-');
  return out;
}

}  // namespace

std::string ics_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 || c == '\t') {
      out += c;
    }
  }
  return out;
}

std::string ics_line(std::string_view line) {
  std::string out;
  std::size_t room = kMostOctets;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && core::inside_letter(line[cut])) --cut;
    out.append(line.substr(0, cut));
    out += "\r\n ";
    line.remove_prefix(cut);
    room = kMostOctets - 1;  // the space in front counts
  }
  out.append(line);
  return out + "\r\n";
}

std::string calendar(std::span<const CalendarDay> days) {
  std::string out =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//barwright//workshop books//EN\r\n"
      "CALSCALE:GREGORIAN\r\n";
  for (const CalendarDay& each : days) {
    out += "BEGIN:VEVENT\r\n";
    out += ics_line("UID:" + each.uid);
    out += ics_line(fmt::format("DTSTAMP:{}T000000Z", ics_day(each.stamp)));
    out += ics_line("DTSTART;VALUE=DATE:" + ics_day(each.day));
    out += ics_line("DTEND;VALUE=DATE:" + ics_day(core::days_after(each.day, 1)));
    out += ics_line("SUMMARY:" + ics_text(each.summary));
    if (!each.description.empty()) out += ics_line("DESCRIPTION:" + ics_text(each.description));
    out += "TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n";
  }
  return out + "END:VCALENDAR\r\n";
}

}  // namespace barwright::app
