#include "browser.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>

#include "running.hpp"

namespace barwright::tests {
namespace {

// No maker's page has a script: this one is put into a copy.
constexpr const char* kProbe = R"js(<pre id="faults"></pre><script>
const faults = [];
window.onerror = message => { faults.push('error: ' + message); };
const meet = (a, b, slack) => a.left + slack < b.right && b.left + slack < a.right &&
                              a.top + slack < b.bottom && b.top + slack < a.bottom;
for (const svg of document.querySelectorAll('svg')) {
  const box = svg.getBoundingClientRect();
  const texts = [...svg.querySelectorAll('text')];
  const at = texts.map(text => text.getBoundingClientRect());
  const dots = [...svg.querySelectorAll('circle')].map(dot => dot.getBoundingClientRect());
  texts.forEach((text, i) => {
    const r = at[i], words = text.textContent;
    if (r.left < box.left || r.right > box.right || r.top < box.top || r.bottom > box.bottom)
      faults.push('cut off: ' + words);
    for (let k = i + 1; k < texts.length; ++k)
      if (meet(r, at[k], 2)) faults.push('overlap: ' + words + ' / ' + texts[k].textContent);
    for (const dot of dots)
      if (meet(r, dot, 2.5)) faults.push('covers a point: ' + words);
  });
}
for (const element of document.querySelectorAll('body, body *')) {
  const style = getComputedStyle(element);
  for (const key of ['color', 'backgroundColor', 'fill', 'stroke', 'borderBottomColor']) {
    const rgb = style[key].match(/[0-9.]+/g);
    if (rgb && rgb.length >= 3 && !(rgb[0] === rgb[1] && rgb[1] === rgb[2]))
      faults.push('coloured: ' + element.tagName + ' ' + key + ' ' + style[key]);
  }
}
if (document.documentElement.scrollWidth > window.innerWidth) faults.push('the page is too wide');
for (const wide of document.querySelectorAll('.wide'))
  if (wide.scrollWidth > wide.clientWidth + 1)
    faults.push('a table is too wide: ' + wide.textContent.slice(0, 40));
for (const entry of performance.getEntriesByType('resource')) faults.push('fetched: ' + entry.name);
document.getElementById('faults').textContent = 'looked at ' +
    document.querySelectorAll('svg').length + ' charts\n' + faults.join('\n') + '\nend of faults';
</script>)js";

}  // namespace

Browsed browse(const std::string& page, const std::string& options) {
  if (std::system("command -v chromium >/dev/null 2>&1") != 0) {
    FAIL("chromium is missing: install it with apt, as tests/run.sh does");
  }
  const std::string out = page + ".out", log = page + ".log";
  const std::string command =
      "profile=$(mktemp -d) && timeout 120 chromium --headless --no-sandbox --disable-gpu "
      "--disable-quic --no-first-run --disable-background-networking --disable-component-update "
      "--disable-sync --enable-logging=stderr --hide-scrollbars "
      "--host-resolver-rules='MAP * ~NOTFOUND' --user-data-dir=$profile " +
      options + " file://" + page + " >" + out + " 2>" + log +
      "; code=$?; rm -rf $profile; exit $code";
  REQUIRE(std::system(("(" + command + ")").c_str()) == 0);
  return {slurp(out), slurp(log)};
}

std::string layout_faults(const std::string& html, const std::string& folder, int width) {
  std::string probed = html;
  const auto end = probed.find("</body>");
  REQUIRE(end != std::string::npos);
  probed.insert(end, kProbe);
  const std::string page = folder + "/probed.html";
  spill(page, probed);
  const Browsed seen = browse(page, "--window-size=" + std::to_string(width) + ",1200 --dump-dom");
  std::string faults;
  const auto from = seen.out.find("<pre id=\"faults\">looked at "),
             to = seen.out.find("end of faults</pre>");
  INFO(seen.log);
  REQUIRE(from != std::string::npos);
  REQUIRE(to != std::string::npos);
  const auto line = seen.out.find('\n', from) + 1;
  faults = seen.out.substr(line, to - line);
  while (!faults.empty() && faults.back() == '\n') faults.pop_back();
  if (seen.log.find("CONSOLE") != std::string::npos) faults += "\nconsole: " + seen.log;
  return faults;
}

std::string printed(const std::string& html, const std::string& folder, const std::string& size) {
  std::string sized = html;
  const auto at = sized.find("</style>");
  REQUIRE(at != std::string::npos);
  sized.insert(at, "@page{size:" + size + "}");
  const std::string page = folder + "/" + size + ".html", pdf = folder + "/" + size + ".pdf";
  spill(page, sized);
  browse(page, "--no-pdf-header-footer --print-to-pdf=" + pdf);
  return slurp(pdf);
}

}  // namespace barwright::tests
