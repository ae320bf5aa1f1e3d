#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "server/routes/operations.hpp"
#include "shop/json.hpp"

/// What the operations on things with an id of their own share.
namespace brakewright::server {

template <class E>
Json list_of(const std::vector<E>& entities) {
  Json list = Json::array();
  for (const E& entity : entities) list.push_back(shop::to_json(entity));
  return list;
}

/// PUT of a thing whose id stands in the path.
template <class E, class Put>
Operation put_operation(const char* id_name, Put put) {
  return [id_name, put](const Call& call) {
    const E wanted = shop::from_json<E>(call.body());
    check_same(call.id(id_name), wanted.id, "id");
    return json_answer(shop::to_json(put(wanted, call.by())));
  };
}

/// POST of something new that belongs to a job.
template <class New, class Put>
Operation post_to_job(Surroundings& around, Put put) {
  return [&around, put](const Call& call) {
    const auto job_id = job_id_of(call, around);
    return json_answer(shop::to_json(put(job_id, shop::from_json<New>(call.body()), call.by())));
  };
}

}  // namespace brakewright::server
