#pragma once

#include <map>
#include <string>
#include <vector>

#include "report/lists/lists.hpp"
#include "shop/school/school.hpp"

/// What people have shown, as lists to print and to keep: one sheet for a student, one for a class.
namespace brakewright::report {

/// All that the lists speak of. The references must outlive the call.
struct EvidenceMatter {
  const shop::Settings& settings;
  const std::vector<shop::Person>& people;
  const std::vector<shop::Competence>& competences;  ///< in their order
  const std::vector<shop::Evidence>& evidence;       ///< of everybody asked about
  const std::vector<shop::PermitState>& permits;
  const std::map<shop::Uuid, std::int64_t>& job_numbers;  ///< of the jobs that the evidence names
  const std::vector<shop::StudyFile>& studies;
  shop::UtcTime printed_at = {};
};

/// @throws InputError "unknown_person" (field "person_id")
ListDocument student_sheet(const EvidenceMatter& matter, const shop::Uuid& person_id);

/// People down, competences across, by their number; who left the class is not in it.
ListDocument class_sheet(const EvidenceMatter& matter, const shop::ClassFile& file);

}  // namespace brakewright::report
