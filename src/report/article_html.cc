#include <fmt/core.h>

#include <algorithm>

#include "report/article.h"
#include "report/html_text.h"
#include "report_assets.h"

namespace shimwright::report {
namespace {

std::string figure_text(const Figure& f, const std::string& id) {
  std::string out = "<figure>" + to_svg(f.scene, false, id);
  if (!f.caption.empty()) out += fmt::format("<figcaption>{}</figcaption>", escaped(f.caption));
  return out + "</figure>\n";
}

/// The name of a tick box is the first text in its row.
std::string cell_text(const std::vector<std::string>& row, std::size_t k) {
  if (row[k] != kTickBox) return escaped(row[k]);
  return fmt::format("<input type=\"checkbox\" aria-label=\"{}\">", escaped(row[0]));
}

/// One writer per element; steps that follow each other make one ordered list.
struct ToHtml {
  std::string& out;
  std::string article;  // its name
  bool in_steps = false;
  int n_figures = 0;

  std::string figure(const Figure& f) {
    return figure_text(f, fmt::format("{}-figure-{}", article, ++n_figures));
  }

  void leave_steps() {
    if (in_steps) out += "</ol>\n";
    in_steps = false;
  }
  void operator()(const Title& t) {
    leave_steps();
    out += fmt::format("<h1>{}</h1>\n", escaped(t.text));
    if (!t.below.empty()) out += fmt::format("<p class=\"below\">{}</p>\n", escaped(t.below));
  }
  void operator()(const Heading& h) {
    leave_steps();
    out += fmt::format("<h2>{}</h2>\n", escaped(h.text));
  }
  void operator()(const Paragraph& p) {
    leave_steps();
    out += fmt::format("<p style=\"color:var(--{})\">{}</p>\n", colors(p.token).name, escaped(p.text));
  }
  void operator()(const Caution& c) {
    // inside a list of steps it stays where it is read: right before its step
    out += fmt::format("<{0} class=\"caution\"><strong>CAUTION</strong> {1}</{0}>\n", in_steps ? "li" : "p",
                       escaped(c.text));
  }
  void operator()(const BigNumbers& big) {
    leave_steps();
    out += "<dl class=\"big\">";
    for (const BigNumber& n : big.numbers)
      out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", escaped(n.name), escaped(n.value));
    out += "</dl>\n";
  }
  void operator()(const Step& s) {
    if (!in_steps) out += "<ol>\n";
    in_steps = true;
    out += fmt::format(
        "<li class=\"step\" value=\"{0}\"><label><input type=\"checkbox\"> <span>{0}. {1}{2}</span></label>",
        s.number, escaped(s.text), s.why.empty() ? "" : "<span class=\"why\">" + escaped(s.why) + "</span>");
    if (!s.big.empty()) out += fmt::format("<p class=\"large\">{}</p>", escaped(s.big));
    if (s.picture) out += figure(*s.picture);
    if (s.box && s.box->to_tick()) {
      out += fmt::format("<label class=\"box\"><input type=\"checkbox\"> <span>{}</span></label>",
                         escaped(s.box->what));
    } else if (s.box) {
      out += fmt::format("<p class=\"box\">{}", escaped(s.box->what));
      if (!s.box->expected.empty()) out += fmt::format(": expect <b>{}</b>", escaped(s.box->expected));
      if (!s.box->range.empty()) out += ", " + escaped(s.box->range);
      out += fmt::format(" <input type=\"text\" aria-label=\"measured: {}\"></p>", escaped(s.box->what));
    }
    out += "</li>\n";
  }
  void operator()(const Rows& table) {
    leave_steps();
    // words in three columns or more do not fit a phone side by side: there each row becomes a small list
    const bool words = table.heads.size() >= 3 &&
                       std::none_of(table.numbers.begin(), table.numbers.end(), [](bool n) { return n; });
    out += fmt::format("<div class=\"scroll\"><table{}><thead><tr>", words ? " class=\"words\"" : "");
    const auto cell_class = [&](std::size_t k) { return table.numbers[k] ? " class=\"n\"" : ""; };
    for (std::size_t k = 0; k < table.heads.size(); ++k)
      out += fmt::format("<th scope=\"col\"{}>{}</th>", cell_class(k), escaped(table.heads[k]));
    out += "</tr></thead><tbody>\n";
    for (const auto& row : table.rows) {
      out += "<tr>";
      for (std::size_t k = 0; k < row.size(); ++k)
        out += fmt::format("<td{}{}>{}</td>", cell_class(k),
                           words ? fmt::format(" data-head=\"{}\"", escaped(table.heads[k])) : "",
                           cell_text(row, k));
      out += "</tr>\n";
    }
    out += "</tbody></table></div>\n";
  }
  void operator()(const Figure& f) {
    leave_steps();
    out += figure(f);
  }
  void operator()(const FigureRow& row) {
    leave_steps();
    for (const Figure& f : row.figures) out += figure(f);
  }
};

std::string custom_properties(bool dark) {
  std::string out;
  for (const TokenColors& t : kTokens) {
    const Rgb c = dark ? t.dark : t.light;
    out += fmt::format("--{}:#{:02x}{:02x}{:02x};", t.name, c.r, c.g, c.b);
  }
  return out;
}

constexpr const char* kStyle = R"(
html{background:var(--paper);color:var(--ink);font:15px/1.45 'Source Sans 3',sans-serif;font-feature-settings:'tnum'}
body{margin:0 auto;max-width:760px;padding:16px}
h1{font-size:34px;line-height:1.15;margin:32px 0 4px}
h2{font-size:24px;line-height:1.2;margin:32px 0 8px;border-bottom:1px solid var(--line);padding-bottom:4px}
p{max-width:66ch;margin:8px 0}
.below,.why,figcaption,dt{color:var(--steel)}
.why,figcaption,dt{font-size:13px;margin:0}
.caution{border:2px solid var(--stop);border-radius:4px;padding:8px 12px;list-style:none;margin:12px 0;max-width:none}
.caution strong{color:var(--stop)}
ol{list-style:none;padding:0;margin:0}
.step{padding:8px 0;border-bottom:1px solid color-mix(in srgb,var(--line) 40%,transparent)}
label.box,.step label{display:flex;gap:12px;min-height:44px;align-items:flex-start}
.step input[type=checkbox]{flex:none;width:28px;height:28px;margin:0;accent-color:var(--fine)}
.step .box,.step .large{margin-left:40px}.step .why{display:block}
@media(max-width:480px){
.words thead{position:absolute;left:-9999px}.words tr{display:block;padding:8px 0;border-bottom:1px solid var(--line)}
.words td{display:block;border:0;padding:2px 0}.words td:empty{display:none}
.words td::before{content:attr(data-head) ': ';color:var(--steel);font-size:13px}}
.large{font-size:24px;font-weight:600}
.box input{font:inherit;min-height:44px;width:9em;border:1.5px solid var(--ink);border-radius:4px;background:transparent;color:inherit;padding:0 8px}
.big{display:flex;flex-wrap:wrap;gap:16px 28px;margin:12px 0}.big div{min-width:120px}.big dd{margin:0;font-size:24px;font-weight:600}
.scroll{overflow-x:auto}
td input{width:24px;height:24px;margin:0}
table{border-collapse:collapse;width:100%;font-size:15px}
th{color:var(--steel);font-weight:600}
th,td{text-align:left;vertical-align:top;padding:4px 12px 4px 0;border-bottom:1px solid color-mix(in srgb,var(--line) 40%,transparent)}
td:first-child{min-width:6.5em}.n{text-align:right;white-space:nowrap}
figure{margin:16px 0;max-width:560px}figure svg{display:block;width:100%;height:auto}
.step figure{margin:8px 0 8px 40px}
label.box{align-items:center}
@media(max-width:480px){.step figure{margin-left:0}}
nav a{color:var(--ink);display:inline-block;min-height:44px;line-height:44px;margin-right:20px}
)";

std::string font_face(const char* name, int weight) {
  return fmt::format(
      "@font-face{{font-family:'Source Sans 3';font-weight:{};src:url(data:font/woff2;base64,{}) "
      "format('woff2')}}\n",
      weight, base64(asset(name)));
}

}  // namespace

std::string article_html(const Article& article) {
  std::string out = fmt::format("<section id=\"{}\">\n", escaped(article.name));
  ToHtml writer{out, article.name};
  for (const Element& element : article.elements) std::visit(writer, element);
  writer.leave_steps();
  return out + "</section>\n";
}

std::string html_page(const std::string& title, const std::vector<Article>& articles) {
  std::string out =
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n";
  out += fmt::format("<title>{}</title>\n<style>\n", escaped(title));
  out += font_face("sans-regular.woff2", 400) + font_face("sans-semibold.woff2", 600);
  out += fmt::format(":root{{{}}}\n@media(prefers-color-scheme:dark){{:root{{{}}}}}",
                     custom_properties(false), custom_properties(true));
  out += std::string(kStyle) + "</style></head>\n<body>\n<nav aria-label=\"parts of the packet\">";
  for (const Article& a : articles) {
    std::string words = a.name;
    for (char& c : words)
      if (c == '-') c = ' ';
    out += fmt::format("<a href=\"#{}\">{}</a>", escaped(a.name), escaped(words));
  }
  out += "</nav>\n<main>\n";
  for (const Article& a : articles) out += article_html(a);
  return out + "</main>\n</body></html>\n";
}

}  // namespace shimwright::report
