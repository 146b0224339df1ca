#pragma once
#include "document/document_describe.h"

namespace shimwright::document {

// The structs whose description other files need: those that stand in structs of another area, and whole
// documents. Only named here: who describes or reads one includes it.

struct BenchDocument;
struct BuildPlan;
struct Comparison;
struct ConditionSummary;
struct ContactForce;
struct Cure;
struct FillResult;
struct Finding;
struct ForceResult;
struct Header;
struct KeyChange;
struct KeyFigures;
struct NamedValue;
struct OilResult;
struct OilSwap;
struct PickList;
struct PlotSpec;
struct PostResult;
struct ReleaseTest;
struct ReservoirResult;
struct ResultDocument;
struct SettingsGuide;
struct SpringResult;
struct StackResult;
struct Value;
struct ValveResult;

// document_describe_value.cc
template <>
const StructInfo& describe<Outcome>();
template <>
const StructInfo& describe<Value>();
template <>
const StructInfo& describe<NamedValue>();
template <>
const StructInfo& describe<Finding>();

// document_describe_cure.cc
template <>
const StructInfo& describe<KeyChange>();
template <>
const StructInfo& describe<Cure>();

// document_describe_plot.cc
template <>
const StructInfo& describe<PlotSpec>();

// document_describe_stack.cc, document_describe_post.cc, document_describe_valve.cc
template <>
const StructInfo& describe<ContactForce>();
template <>
const StructInfo& describe<StackResult>();
template <>
const StructInfo& describe<PostResult>();
template <>
const StructInfo& describe<KeyFigures>();
template <>
const StructInfo& describe<ValveResult>();
template <>
const StructInfo& describe<ForceResult>();

// document_describe_spring.cc, document_describe_oil.cc, document_describe_fill.cc, document_describe_plan.cc
template <>
const StructInfo& describe<SpringResult>();
template <>
const StructInfo& describe<OilResult>();
template <>
const StructInfo& describe<OilSwap>();
template <>
const StructInfo& describe<ReleaseTest>();
template <>
const StructInfo& describe<ReservoirResult>();
template <>
const StructInfo& describe<FillResult>();
template <>
const StructInfo& describe<BuildPlan>();
template <>
const StructInfo& describe<PickList>();
template <>
const StructInfo& describe<SettingsGuide>();

// document_describe_whole.cc, document_describe_bench.cc
template <>
const StructInfo& describe<Header>();
template <>
const StructInfo& describe<ConditionSummary>();
template <>
const StructInfo& describe<ResultDocument>();
template <>
const StructInfo& describe<Comparison>();
template <>
const StructInfo& describe<BenchDocument>();

}  // namespace shimwright::document
