#include <array>
#include <charconv>

#include "core/length/length.hpp"
#include "shop/exchange/csv.hpp"
#include "shop/exchange/piece_headings.hpp"
#include "shop/exchange/pieces_csv.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr std::int64_t kShortInchNm = 254;  // 0.00001 in

std::string without_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string exact(Length length, Unit unit) {
  if (unit == Unit::mm) return without_zeros(format_number(length, Unit::mm, 1));
  if (length.nm % kShortInchNm == 0) return without_zeros(format_number(length, Unit::in, kShortInchNm));
  return without_zeros(format_number(length, Unit::mm, 1)) + " mm";
}

std::string shortest(double value) {
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value);
  return {text.data(), end.ptr};
}

std::string yes_or_no(bool value) { return value ? "yes" : "no"; }

}  // namespace

std::string pieces_csv(const std::vector<Piece>& pieces) {
  std::string text = "\xef\xbb\xbf" + csv_line(std::vector<std::string>(kPieceHeadings.begin(), kPieceHeadings.end()));
  for (const Piece& piece : pieces) {
    std::vector<std::string> cells = {piece.name,
                                      std::string(word_of(piece.kind)),
                                      piece.hook,
                                      std::string(word_of(piece.unit)),
                                      exact(piece.bore, piece.unit),
                                      exact(piece.length, piece.unit)};
    for (const auto& [heading, member] : kDimensions) {
      const auto& length = piece.*member;
      cells.push_back(length ? exact(*length, piece.unit) : "");
    }
    for (const bool flag : {piece.weighted, piece.damping}) cells.push_back(yes_or_no(flag));
    cells.push_back(piece.runout_um ? shortest(*piece.runout_um) : "");
    cells.push_back(piece.note);
    cells.push_back(yes_or_no(piece.active));
    cells.push_back(to_text(piece.id));
    text += csv_line(cells);
  }
  return text;
}

}  // namespace brakewright::shop
