#pragma once

#include "shop/school/entities.hpp"
#include "shop/shelf.hpp"

namespace brakewright::shop {

/// Where a school is kept: in the same transactions as its shop.
class SchoolStore {
 public:
  virtual ~SchoolStore() = default;

  virtual Shelf<ReferencePart>& reference_parts() = 0;
  virtual Shelf<Study>& studies() = 0;
  virtual Shelf<StudyReading>& study_readings() = 0;
  virtual Shelf<SafetyPoint>& safety_points() = 0;
  virtual Shelf<SafetyAnswer>& safety_answers() = 0;
  virtual Shelf<KeptPermitRule>& permit_rules() = 0;
  virtual Shelf<SupervisedCut>& supervised_cuts() = 0;
  virtual Shelf<Permit>& permits() = 0;
  virtual Shelf<SchoolClass>& classes() = 0;
  virtual Shelf<Membership>& memberships() = 0;
  virtual Shelf<Competence>& competences() = 0;
  virtual Shelf<Evidence>& evidence() = 0;
  virtual Shelf<QueueEntry>& queue_entries() = 0;
};

}  // namespace brakewright::shop
