#pragma once

/// Every type that has JSON, for explicit instantiation.
#define BRAKEWRIGHT_ALL_JSON(make)                                                                                  \
  make(Settings) make(Person) make(Instrument) make(ZeroCheck) make(Lathe) make(Limit) make(Limits) make(KnownPart) \
      make(Job) make(Part) make(MeasuringPlan) make(Reading) make(Finding) make(Decision) make(Cut) make(Amendment) \
          make(JobFile) make(Change) make(NewJob) make(NewReading) make(NewZeroCheck) make(NewFinding)              \
              make(NewDecision) make(NewCut) make(NewAmendment)
