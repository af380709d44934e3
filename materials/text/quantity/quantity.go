package quantity

import (
	"math"
	"strconv"
	"strings"

	"strandry/materials/text/nearest"
)

// Dimension is a kind of quantity with the units it may be written in. The zero
// value knows no unit and refuses every text; take one from [Length] and its
// sisters.
type Dimension struct {
	name     string
	usual    string // the unit people use most
	units    []scale
	positive bool // SI values below zero do not exist
	doubtful []hint
}

// scale carries a number in a unit to SI: x*times/over + offset. Factors below
// one are divisions, so that "1.75 mm" is the float nearest to 0.00175.
type scale struct {
	name                string
	also                []string // what else people write for it, and can mean nothing else
	times, over, offset float64
}

// hint is what people write that can be read in two ways, or in none, and what to write instead.
type hint struct {
	spelt []string
	says  string
}

func unit(name string, times, over float64, also ...string) scale {
	return scale{name: name, also: also, times: times, over: over}
}

// unclear adds a hint.
func (d Dimension) unclear(says string, spelt ...string) Dimension {
	d.doubtful = append(d.doubtful, hint{spelt, says})
	return d
}

func of(name, usual string, units ...scale) Dimension {
	return Dimension{name: name, usual: usual, units: units}
}

// Error tells why a text is not a quantity of the wanted dimension.
type Error struct {
	Text    string // what was given
	Problem string // what is wrong with it
	Allowed string // what is allowed
	Nearest string // the allowed unit closest to the one given, or ""
}

// Error gives the text, the problem, what is allowed and the nearest unit.
func (e *Error) Error() string {
	out := strconv.Quote(e.Text) + ": " + e.Problem
	if e.Allowed != "" {
		out += "; allowed: " + e.Allowed
	}
	if e.Nearest != "" {
		out += "; did you mean " + strconv.Quote(e.Nearest) + "?"
	}
	return out
}

// Name returns the plain name of the dimension, such as "length".
func (d Dimension) Name() string { return d.name }

// Usual returns the unit people use most for this dimension, such as "mm".
func (d Dimension) Usual() string { return d.usual }

// Units returns the names of the units the dimension may be written in.
func (d Dimension) Units() []string {
	names := make([]string, len(d.units))
	for i, u := range d.units {
		names[i] = u.name
	}
	return names
}

// Parse reads a number and a unit, such as "12 m" or "1.5e-13 m²/s", and returns
// the value in SI. The result is finite. The error is a [*Error]: no number, one that can be read in two ways, no
// unit, an unknown or an unclear unit, a number too large, or a temperature below absolute zero.
func (d Dimension) Parse(text string) (float64, error) {
	number, rest, unclear := split(strings.TrimSpace(text))
	switch {
	case unclear != "":
		return 0, &Error{Text: text, Problem: unclear}
	case number == "":
		return 0, d.fault(text, "no number at the start", "")
	}
	value, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, d.fault(text, "the number is too large", "")
	}
	rest = strings.TrimSpace(rest)
	if rest == "" {
		return 0, d.fault(text, "a "+d.name+" needs its unit", number+" "+d.usual)
	}
	u, ok := d.find(rest)
	if !ok {
		return 0, d.strange(text, rest)
	}
	si := value*u.times/u.over + u.offset
	if math.IsInf(si, 0) || math.IsNaN(si) {
		return 0, d.fault(text, "the number is too large", "")
	}
	if d.positive && si < 0 {
		if si > -1e-9 { // rounding of "-459.67 °F"
			return 0, nil
		}
		return 0, d.fault(text, "below absolute zero", "")
	}
	return si, nil
}

// Unit returns the name of the unit that a text gives, such as "mm/s" for "2 mm/sec"; "" where it is none of the dimension.
func (d Dimension) Unit(text string) string {
	_, rest, _ := split(strings.TrimSpace(text))
	u, _ := d.find(strings.TrimSpace(rest))
	return u.name
}

// Step is what one unit of the last digit of a text is that [Dimension.Parse] reads [SI], such as 1e-6 kg for "12.430 g"; 0 for another text.
func (d Dimension) Step(text string) float64 {
	number, rest, _ := split(strings.TrimSpace(text))
	u, ok := d.find(strings.TrimSpace(rest))
	mantissa, power, _ := strings.Cut(strings.ToLower(number), "e")
	exponent, err := strconv.Atoi("0" + strings.TrimPrefix(power, "+"))
	if strings.HasPrefix(power, "-") {
		exponent, err = strconv.Atoi(power)
	}
	if !ok || number == "" || err != nil {
		return 0
	}
	if at := strings.IndexByte(mantissa, '.'); at >= 0 {
		exponent -= len(mantissa) - at - 1
	}
	step, err := strconv.ParseFloat("1e"+strconv.Itoa(exponent), 64)
	if err != nil || math.IsInf(step*u.times/u.over, 0) {
		return 0
	}
	return step * u.times / u.over
}

func (d Dimension) fault(text, problem, near string) *Error {
	return &Error{Text: text, Problem: problem, Allowed: "a number with one of " + strings.Join(d.Units(), ", "), Nearest: near}
}

// strange tells what is wrong with a unit that is not one of the dimension.
func (d Dimension) strange(text, unit string) *Error {
	spelt, sound := canonical(unit)
	for _, h := range d.doubtful {
		for _, other := range h.spelt {
			if same, _ := canonical(other); sound && same == spelt {
				return &Error{Text: text, Problem: strconv.Quote(unit) + ": " + h.says}
			}
		}
	}
	if strings.ContainsAny(unit, "0123456789") && d.compound(unit) {
		return &Error{Text: text, Problem: "a sum of quantities is not taken; write it as one, such as " + strconv.Quote("1.5 "+d.usual)}
	}
	return d.fault(text, strconv.Quote(unit)+" is not a unit of "+d.name, nearest.Name(unit, d.Units()))
}

// compound tells whether a unit goes on with another quantity, as in "h 30 min".
func (d Dimension) compound(unit string) bool {
	at := strings.IndexAny(unit, "0123456789")
	_, first := d.find(unit[:at])
	_, err := d.Parse(unit[at:])
	return first && err == nil
}

func (d Dimension) find(name string) (scale, bool) {
	for _, u := range d.units {
		if u.name == name {
			return u, true
		}
	}
	spelt, ok := canonical(name)
	if !ok {
		return scale{}, false
	}
	for _, u := range d.units {
		for _, other := range append([]string{u.name}, u.also...) {
			if same, _ := canonical(other); same == spelt {
				return u, true
			}
		}
	}
	return scale{}, false
}

// In returns an SI value as the number to write before unit; false when the
// dimension has no such unit.
func (d Dimension) In(si float64, unit string) (float64, bool) {
	u, ok := d.find(unit)
	if !ok {
		return 0, false
	}
	return (si - u.offset) * u.over / u.times, true
}

// Format writes an SI value in the given unit with so many significant digits,
// for instance "1.75 mm". An unknown unit gives way to the usual one.
func (d Dimension) Format(si float64, unit string, digits int) string {
	value, ok := d.In(si, unit)
	if !ok {
		unit = d.usual
		if value, ok = d.In(si, unit); !ok {
			return Number(si, digits)
		}
	}
	return Number(value, digits) + " " + unit
}

// Number writes x with at most so many significant digits (1 to 17), without
// trailing zeros, and with an exponent only outside 1e-4 to 1e7.
func Number(x float64, digits int) string {
	digits = min(max(digits, 1), 17)
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil || rounded == 0 {
		rounded = x
	}
	if a := math.Abs(rounded); a != 0 && (a < 1e-4 || a >= 1e7) {
		text := strconv.FormatFloat(rounded, 'e', -1, 64)
		return strings.NewReplacer("e-0", "e-", "e+0", "e", "e+", "e").Replace(text)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// Outward rounds x to so many significant digits (1 to 15), up or down: a least length up, a greatest one
// down. A billionth is no reason to go a step further.
func Outward(x float64, digits int, up bool) float64 {
	digits = min(max(digits, 1), 15)
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	nearest := func(x float64) float64 {
		rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
		return rounded
	}
	rounded, step := nearest(x), math.Pow10(int(math.Floor(math.Log10(math.Abs(x))))-digits+1)
	slack := 1e-9 * math.Abs(x)
	switch {
	case up && rounded < x-slack:
		rounded = nearest(rounded + step)
	case !up && rounded > x+slack:
		rounded = nearest(rounded - step)
	}
	return rounded
}
