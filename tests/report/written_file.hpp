#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Looks at what was drawn with other people's programs.
namespace brakewright::report::test {

/// A file that is gone when its holder is.
class WrittenFile {
 public:
  WrittenFile(const std::string& bytes, const std::string& ending) {
    std::string pattern = (std::filesystem::temp_directory_path() / "record-XXXXXX").string();
    const int handle = mkstemp(pattern.data());
    if (handle < 0) throw std::runtime_error("no temporary file");
    std::fclose(fdopen(handle, "w"));
    bare_ = pattern;
    path_ = pattern + ending;
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  ~WrittenFile() {
    std::filesystem::remove(path_);
    std::filesystem::remove(bare_);
  }
  WrittenFile(const WrittenFile&) = delete;
  WrittenFile& operator=(const WrittenFile&) = delete;

  const std::string& path() const { return path_; }

 private:
  std::string bare_;
  std::string path_;
};

/// Standard output of a command; throws when it fails.
inline std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run " + command);
  std::string output;
  char buffer[4096];
  for (std::size_t n = 0; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, n);
  const int status = pclose(pipe);
  if (status != 0) throw std::runtime_error(command + " failed");
  return output;
}

inline bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

inline std::string text_of_pdf(const std::string& pdf) {
  const WrittenFile file(pdf, ".pdf");
  return output_of("pdftotext -layout " + file.path() + " -");
}

/// A word as it stands on its page, in points.
struct WordBox {
  int page = 0;
  double left = 0, top = 0, right = 0, bottom = 0;
  bool outside = false;  ///< of its page
  std::string text = {};
};

/// The boxes of all words, as pdftotext tells them.
inline std::vector<WordBox> words_of_pdf(const std::string& pdf) {
  const WrittenFile file(pdf, ".pdf");
  const std::string boxes = output_of("pdftotext -bbox " + file.path() + " -");
  double width = 0, height = 0;
  std::vector<WordBox> words;
  int page = 0;
  for (std::size_t at = 0; (at = boxes.find('<', at)) != std::string::npos; ++at) {
    const char* here = boxes.c_str() + at;
    if (std::sscanf(here, "<page width=\"%lf\" height=\"%lf\"", &width, &height) == 2) ++page;
    WordBox word{.page = page};
    if (std::sscanf(here, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &word.left, &word.top,
                    &word.right, &word.bottom) != 4) {
      continue;
    }
    word.outside = word.left < 0 || word.top < 0 || word.right > width || word.bottom > height;
    const std::size_t from = boxes.find('>', at) + 1;
    word.text = boxes.substr(from, boxes.find('<', from) - from);
    words.push_back(word);
  }
  if (words.empty()) throw std::runtime_error("no words in the PDF");
  return words;
}

/// How many words are not wholly on their page.
inline int words_outside(const std::string& pdf) {
  const std::vector<WordBox> words = words_of_pdf(pdf);
  return static_cast<int>(std::count_if(words.begin(), words.end(), [](const auto& word) { return word.outside; }));
}

/// Pairs of words of a page that stand in each other, as "left / right". The letters of a line are no higher than the
/// middle three fifths of what its box says.
inline std::vector<std::string> words_that_meet(const std::string& pdf, int page) {
  std::vector<WordBox> words;
  for (WordBox& word : words_of_pdf(pdf)) {
    if (word.page != page) continue;
    const double trim = (word.bottom - word.top) / 5;
    word.top += trim;
    word.bottom -= trim;
    words.push_back(word);
  }
  std::vector<std::string> found;
  for (std::size_t a = 0; a < words.size(); ++a) {
    for (std::size_t b = a + 1; b < words.size(); ++b) {
      constexpr double kTouch = 0.2;
      const double across = std::min(words[a].right, words[b].right) - std::max(words[a].left, words[b].left);
      const double down = std::min(words[a].bottom, words[b].bottom) - std::max(words[a].top, words[b].top);
      if (across > kTouch && down > kTouch) found.push_back(words[a].text + " / " + words[b].text);
    }
  }
  return found;
}

}  // namespace brakewright::report::test
