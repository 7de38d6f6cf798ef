// Package heat turns daily minimum and maximum temperatures into thermal time:
// degree-days by three published methods (degreedays.go), with short gaps filled
// and long ones named (gaps.go), what a usual year brings by a date (normals.go),
// and by how many days this season is ahead of or behind it (offset.go).
//
// Temperatures are in °C and degree-days in °C·day.
package heat
