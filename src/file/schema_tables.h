#pragma once
#include "file/schema.h"

namespace shimwright::file {

/// The tables of a job file, from the smallest up. The keys of each are in the .cc of its group.

// schema_parts.cc
const TableSchema& material_schema();
const TableSchema& oil_schema();
const TableSchema& disc_schema();
const TableSchema& spring_schema();
const TableSchema& spacer_schema();
const TableSchema& nut_schema();

// schema_valve.cc
const TableSchema& direction_schema();
const TableSchema& lone_stack_schema();
const TableSchema& piece_schema();
const TableSchema& valve_schema();

// schema_fill.cc
const TableSchema& fill_schema();

// schema_bench.cc
const TableSchema& motion_schema();
const TableSchema& bench_schema();

// schema_unit.cc
const TableSchema& unit_schema();

}  // namespace shimwright::file
