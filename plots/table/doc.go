// Package table sets results as text for a terminal and as JSON. It computes
// nothing: every figure comes from the packages below. Text is in people's units
// (°C, mm, % of dry weight); JSON is in SI.
package table
