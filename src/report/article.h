#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "report/page.h"

namespace shimwright::report {

/// What a packet says, before it is set on pages or as HTML: one list serves both, so neither can say what
/// the other does not.
struct Title {
  std::string text, below;
};
struct Heading {
  std::string text;
};
struct Paragraph {
  std::string text;
  Token token = Token::Ink;
  bool keep_with_next = false;  // as a heading is
};
struct Caution {
  std::string text;  // one sentence
};
struct BigNumber {
  std::string name, value;
};
struct BigNumbers {
  std::vector<BigNumber> numbers;
  std::size_t columns = 0;  // of equal width; 0: one for each number
};
struct Figure {
  Scene scene;
  std::string caption;
};
/// Small figures side by side where there is room, else one below the other.
struct FigureRow {
  std::vector<Figure> figures;
};
/// A box to write the measured value in; with neither value nor range it is one to tick.
struct StepBox {
  std::string what, expected, range;

  bool to_tick() const { return expected.empty() && range.empty(); }
};
struct Step {
  int number = 0;
  std::string text, why;
  std::string big;  // the number the hands need, large; empty when none
  std::optional<StepBox> box;
  std::optional<Figure> picture;  // where right and wrong way up matter
};
/// A cell of Rows with this text is a box to tick.
inline constexpr const char* kTickBox = "[ ]";

struct Rows {
  std::vector<std::string> heads;
  std::vector<double> shares;  // of the width, as heads; may leave a part of it empty
  std::vector<bool> numbers;   // right-aligned, as heads
  std::vector<std::vector<std::string>> rows;
};

using Element = std::variant<Title, Heading, Paragraph, Caution, BigNumbers, Step, Rows, Figure, FigureRow>;

struct Article {
  std::string name;  // "build-sheet", of the file too
  Foot foot;
  double gap_scale = 1.0;  // of the white between blocks: a page that must stay one page goes below 1
  std::vector<Element> elements;
};

/// The article on paper.
std::vector<Scene> article_pages(const Article& article, Paper paper);

/// The article as one HTML section, without head or style.
std::string article_html(const Article& article);

/// The whole page: styles, embedded typeface, light and dark, no request to anywhere.
std::string html_page(const std::string& title, const std::vector<Article>& articles);

}  // namespace shimwright::report
