#pragma once

#include "shop/school/school.hpp"
#include "store/sqlite_school.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {

/// A classroom with a school: some students, a second instrument, and reference parts of known sizes.
class Schoolroom : public Classroom {
 protected:
  Schoolroom() {
    for (const char* name : {"Bo Fern", "Cai Ash", "Dee Rowan"}) {
      students.push_back(shop.put_person({.id = id(), .name = name, .role = Role::student}, teacher).id);
    }
  }

  Uuid reference_part(const std::string& name, const std::string& size_mm) {
    return school
        .put_reference_part({.id = id(),
                             .name = name,
                             .place_words = "on the dot",
                             .reference = mm(size_mm),
                             .expanded_uncertainty = {1'000},
                             .source = "measured by the county's laboratory"},
                            teacher)
        .id;
  }

  /// Five parts, every student, one micrometer.
  Study small_study(std::int64_t repeats = 3) {
    Study study{.id = id(), .name = "First week"};
    for (const char* size : {"20.112", "20.540", "21.035", "21.488", "22.017"}) {
      study.reference_part_ids.push_back(reference_part(std::string("Disc ") + size, size));
    }
    study.person_ids = students;
    study.instrument_ids = {micrometer};
    study.repeats = repeats;
    return school.put_study(study, teacher);
  }

  NewStudyReading reading_at(const StudyPlace& place, const Uuid& person, const std::string& text) {
    clock += std::chrono::seconds(20);
    return {.id = id(),
            .person_id = person,
            .reference_part_id = place.reference_part_id,
            .instrument_id = place.instrument_id,
            .repeat = place.repeat,
            .text = text,
            .confirmed = true};
  }

  double size_um(const Uuid& part_id) { return find(school.reference_parts(), part_id)->reference.value.um(); }

  /// Everything that a student has still to read: so much off the references, with so much spread.
  void read_all(const Study& study, const Uuid& person, double off_um, double sd_um) {
    for (const StudyPlace& place : school.open_places(study.id, person)) {
      const double um = size_um(place.reference_part_id) + off_um + sd_um * dice.normal();
      const Length read{std::llround(um) * 1'000};
      school.add_study_reading(study.id, reading_at(place, person, format_number(read, Unit::mm, 1'000)), person);
    }
  }

  static const ReferencePart* find(const std::vector<ReferencePart>& all, const Uuid& id) {
    for (const auto& one : all) {
      if (one.id == id) return &one;
    }
    return nullptr;
  }

  std::unique_ptr<SchoolStore> school_store = store::open_school(*store);
  School school{shop, *school_store, [this] { return clock; }};
  std::vector<Uuid> students;
};

}  // namespace brakewright::shop
