#include "report/rich_text.h"

#include <algorithm>

#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

double width_of(const std::vector<Run>& runs, double size) {
  double width = 0.0;
  for (const Run& run : runs) width += text_width(run.text, size, run.weight);
  return width;
}

/// Appends a piece; what has the same weight becomes one run, so that it is set as one.
void join(std::vector<Run>& runs, const Run& piece) {
  if (!runs.empty() && runs.back().weight == piece.weight)
    runs.back().text += piece.text;
  else
    runs.push_back(piece);
}

/// The text word by word: a word can have several weights, as `key`: has.
std::vector<std::vector<Run>> words_of(const std::vector<Run>& runs) {
  std::vector<std::vector<Run>> words(1);
  for (const Run& run : runs) {
    std::size_t at = 0;
    while (at <= run.text.size()) {
      const std::size_t end = std::min(run.text.find_first_of(" \n", at), run.text.size());
      if (end > at) join(words.back(), {run.text.substr(at, end - at), run.weight});
      if (end < run.text.size() && !words.back().empty()) words.emplace_back();
      at = end + 1;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

/// As much of a word as fits is taken from its front.
Run cut_front(std::vector<Run>& word, double width, double size) {
  Run& first = word.front();
  Run front{fitting_start(first.text, width, size, first.weight), first.weight};
  if (front.text.empty()) front.text = first.text;  // one character always goes on
  first.text.erase(0, front.text.size());
  if (first.text.empty()) word.erase(word.begin());
  return front;
}

}  // namespace

double add_runs(Scene& scene, const std::vector<Run>& runs, double x, double y, double width, double size,
                Token token) {
  const auto put = [&](const std::vector<Run>& line) {
    double at = x;
    for (const Run& run : line) {
      scene.add(Label{{at, y + size}, run.text, size, Anchor::Start, run.weight, token, 0});
      at += text_width(run.text, size, run.weight);
    }
    y += leading(size);
  };
  std::vector<Run> line;
  for (std::vector<Run>& word : words_of(runs)) {
    std::vector<Run> candidate = line;
    if (!line.empty()) join(candidate, {" ", line.back().weight});
    for (const Run& piece : word) join(candidate, piece);
    if (width_of(candidate, size) <= width) {
      line = std::move(candidate);
      continue;
    }
    if (!line.empty()) put(line);
    line.clear();
    while (width_of(word, size) > width && !word.empty()) put({cut_front(word, width, size)});
    for (const Run& piece : word) join(line, piece);
  }
  if (!line.empty()) put(line);
  return y;
}

std::string plain_text(const std::vector<Run>& runs) {
  std::string text;
  for (const Run& run : runs) text += run.text;
  return text;
}

}  // namespace shimwright::report
