#pragma once

#include <string>
#include <vector>

#include "report/content/content.hpp"
#include "shop/entities.hpp"

/// Content on paper: the files that people print, keep and look at.
namespace brakewright::report {

/// All sheets of one job or several as PDF 1.5, with `made_at` as its creation date: the same contents give the same
/// bytes. @throws std::runtime_error when the drawing library fails
std::string pdf_of(const std::vector<Content>& contents, shop::Paper paper, shop::UtcTime made_at);
inline std::string pdf_of(const Content& content, shop::Paper paper, shop::UtcTime made_at) {
  return pdf_of(std::vector<Content>{content}, paper, made_at);
}

/// One sheet as SVG 1.1, its size in millimetres.
/// @throws InputError "no_such_sheet" (field "sheet") unless 1 <= sheet <= sheet_count(content)
std::string svg_of(const Content& content, shop::Paper paper, int sheet);

/// One sheet as PNG. @throws InputError as svg_of; "out_of_range" (field "dpi") unless 36 <= dpi <= 600
std::string png_of(const Content& content, shop::Paper paper, int sheet, int dpi);

}  // namespace brakewright::report
