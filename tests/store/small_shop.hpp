#pragma once

#include "shop/store.hpp"

/// A shop with one person, one open job of one part, and what is needed to add to it.
namespace brakewright::shop::small_shop {

inline Uuid id(std::uint32_t number) {
  Uuid made;
  made.bytes[6] = 0x70;
  for (std::size_t k = 0; k < 4; ++k) made.bytes[15 - k] = static_cast<std::uint8_t>((number >> (8 * k)) & 0xff);
  return made;
}

inline constexpr UtcTime kMorning =
    UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)) + std::chrono::hours(9);

inline Person person(std::uint32_t number = 1, const std::string& name = "Maya Okonjo") {
  return {.id = id(number), .name = name, .role = Role::student, .active = true, .created_at = kMorning};
}

inline Job job(std::uint32_t number, std::int64_t count, const std::string& vehicle = "blue estate, 2.0 diesel") {
  return {.id = id(number),
          .number = count,
          .brought_by = "Mr Adeyemi",
          .vehicle = vehicle,
          .complaint_note = "shakes from 80",
          .worker_person_id = id(1),
          .opened_by_person_id = id(1),
          .opened_at = kMorning,
          .changed_at = kMorning};
}

inline Part part(std::uint32_t number, const Uuid& job_id) { return {.id = id(number), .job_id = job_id}; }

inline Reading reading(std::uint32_t number, const Uuid& job_id, const Uuid& part_id) {
  return {.id = id(number),
          .job_id = job_id,
          .part_id = part_id,
          .value = parse_length("21.23", Unit::mm).typed,
          .by_person_id = id(1),
          .taken_at = kMorning,
          .received_at = kMorning};
}

inline Change change(std::uint32_t number, const Uuid& subject, std::optional<Uuid> job_id) {
  return {.id = id(number),
          .kind = "reading.added",
          .job_id = job_id,
          .subject_id = subject,
          .detail_json = "{}",
          .by_person_id = id(1),
          .at = kMorning};
}

/// Person 1, job 10 with number 1, part 20.
inline void fill(Store& store) {
  store.transact([&] {
    store.put(person());
    store.put(job(10, store.next_job_number()));
    store.put(part(20, id(10)));
  });
}

}  // namespace brakewright::shop::small_shop
