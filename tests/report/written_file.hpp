#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

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

inline std::string text_of_pdf(const std::string& pdf) {
  const WrittenFile file(pdf, ".pdf");
  return output_of("pdftotext -layout " + file.path() + " -");
}

/// Every box of a word on the page, as pdftotext tells it, is inside the page: answers how many are not.
inline int words_outside(const std::string& pdf) {
  const WrittenFile file(pdf, ".pdf");
  const std::string boxes = output_of("pdftotext -bbox " + file.path() + " -");
  double width = 0, height = 0;
  int outside = 0;
  int words = 0;
  for (std::size_t at = 0; (at = boxes.find('<', at)) != std::string::npos; ++at) {
    double left = 0, top = 0, right = 0, bottom = 0;
    const char* here = boxes.c_str() + at;
    std::sscanf(here, "<page width=\"%lf\" height=\"%lf\"", &width, &height);
    if (std::sscanf(here, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &left, &top, &right, &bottom) !=
        4) {
      continue;
    }
    ++words;
    if (left < 0 || top < 0 || right > width || bottom > height) ++outside;
  }
  if (words == 0) throw std::runtime_error("no words in the PDF");
  return outside;
}

}  // namespace brakewright::report::test
