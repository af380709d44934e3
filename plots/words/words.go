// Package words prints numbers and quantities as figures have them: people's units, two or three digits, a unit never on another line than its number.
package words

import (
	"math"
	"strings"

	"strandry/materials/text/quantity"
)

// ZeroCelsius is 0 °C [K].
const ZeroCelsius = 273.15

// NBSP holds a number and its unit on one line.
const NBSP = "\u00a0"

// Celsius prints a temperature [K] to the degree.
func Celsius(kelvin float64) string { return Digits(math.Round(kelvin-ZeroCelsius), 4) + NBSP + "°C" }

// Percent prints a content [kg/kg dry] in % of it; below a two-millionth it counts as none.
func Percent(content float64) string {
	if math.Abs(content) < 5e-7 {
		content = 0
	}
	return Digits(100*content, 2) + NBSP + "%"
}

// PercentSpan prints a content with its 10 and 90 % points.
func PercentSpan(content, low, high float64) string {
	return Percent(content) + " (" + strings.TrimSuffix(Percent(low), NBSP+"%") + " to " + strings.TrimSuffix(Percent(high), NBSP+"%") + ")"
}

// Place prints a position on the path [m].
func Place(x float64) string {
	if x < 10 {
		return Metres(x)
	}
	return Digits(x, 3) + NBSP + "m"
}

// Digits prints a number with so many significant digits, of which zeros at the end are dropped.
func Digits(x float64, n int) string {
	return Spaced(quantity.Number(x, n))
}

// Metres prints a length [m]; a short one in mm.
func Metres(x float64) string {
	if x < 0.1 {
		return Digits(1000*x, 2) + NBSP + "mm"
	}
	return Digits(x, 2) + NBSP + "m"
}

// Speed prints a speed [m/s] in mm/s.
func Speed(v float64) string { return Digits(1000*v, 3) + NBSP + "mm/s" }

// Time prints a time [s] in the unit that reads best.
func Time(s float64) string {
	const minute, hour, day, year = 60, 3600, 86400, 365.25 * 86400
	switch {
	case s < minute:
		return Digits(s, 2) + NBSP + "s"
	case s < 100*minute:
		return Digits(s/minute, 2) + NBSP + "min"
	case s < 72*hour:
		return Digits(s/hour, 2) + NBSP + "h"
	case s < year:
		return Digits(s/day, 2) + NBSP + "days"
	}
	return Digits(s/year, 2) + NBSP + "years"
}

// Times says how many times one value is another.
func Times(x float64) string {
	if x < 2 {
		return Digits(x, 3) + NBSP + "times"
	}
	return Digits(x, 2) + NBSP + "times"
}

// Spaced parts the thousands of a number of five or more digits.
func Spaced(number string) string {
	whole, _, _ := strings.Cut(number, ".")
	if len(strings.TrimPrefix(whole, "-")) <= 4 {
		return number
	}
	return number[:len(whole)-3] + NBSP + number[len(whole)-3:]
}

// Clipped shortens a text to so many letters.
func Clipped(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
