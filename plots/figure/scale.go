package figure

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// scale carries the values of an axis to the unit interval.
type scale struct {
	min, max float64
	log      bool
}

func (s scale) norm(v float64) float64 {
	if s.log {
		return math.Log(v/s.min) / math.Log(s.max/s.min)
	}
	return (v - s.min) / (s.max - s.min)
}

// value is the inverse of norm.
func (s scale) value(norm float64) float64 {
	if s.log {
		return s.min * math.Pow(s.max/s.min, norm)
	}
	return s.min + (s.max-s.min)*norm
}

func (s scale) holds(v float64) bool { return v >= s.min && v <= s.max }

// linearFrom gives a linear scale over the values, from zero if they come near it, a
// little wider than they are.
func linearFrom(values []float64) scale {
	low, high := bounds(values)
	if low > 0 && low < high/2 {
		low = 0
	}
	room := (high - low) * 0.06
	if room == 0 {
		room = math.Max(math.Abs(high)*0.1, 1e-9)
	}
	s := scale{min: low - room, max: high + room}
	if low >= 0 && s.min < 0 {
		s.min = 0
	}
	return s
}

// contents gives a linear scale from zero to a little above the contents [%].
func contents(limit float64, all ...[]float64) scale {
	_, high := bounds(append([]float64{limit}, join(all...)...))
	return scale{max: high * 1.1}
}

// higher reaches up to so many times as much.
func (s scale) higher(times float64) scale {
	s.max *= times
	return s
}

// logFrom gives a logarithmic scale over positive values, a little wider.
func logFrom(values []float64) scale {
	low, high := bounds(values)
	room := math.Max(math.Pow(high/low, 0.06), 1.15)
	return scale{min: low / room, max: high * room, log: true}
}

func bounds(values []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

type tick struct {
	value float64
	label string // "" for a minor one
}

// ticks gives about so many labelled ticks.
func (s scale) ticks(about int) []tick {
	if s.log {
		return s.logTicks(about)
	}
	step := niceStep((s.max - s.min) / float64(max(about, 1)))
	for finer := 0; finer < 3 && math.Floor(s.max/step+1e-9)-math.Ceil(s.min/step-1e-9) < 2; finer++ { // two numbers tell too little
		step = niceStep(step / 2.5)
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	var out []tick
	for k := math.Ceil(s.min/step - 1e-9); k*step <= s.max+1e-9*step; k++ {
		out = append(out, tick{k * step, spaced(strconv.FormatFloat(k*step+0, 'f', decimals, 64))})
	}
	return out
}

// niceStep rounds a step up to 1, 2 or 5 times a power of ten.
func niceStep(rough float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range [...]float64{1, 2, 5} {
		if m*power >= rough*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

func (s scale) logTicks(about int) []tick {
	decades := math.Log10(s.max / s.min)
	if decades < 0.7 {
		linear := scale{min: s.min, max: s.max}
		return linear.ticks(min(about, 5))
	}
	labelled, every := s.labelled(about)
	var out []tick
	for e := int(math.Floor(math.Log10(s.min))); e <= int(math.Ceil(math.Log10(s.max))); e++ {
		for m := 1; m < 10; m++ {
			v, err := strconv.ParseFloat(strconv.Itoa(m)+"e"+strconv.Itoa(e), 64)
			if err != nil || v < s.min*(1-1e-9) || v > s.max*(1+1e-9) {
				continue
			}
			t := tick{value: v}
			if slices.Contains(labelled, m) && e%every == 0 {
				t.label = power(v)
			}
			out = append(out, t)
		}
	}
	return out
}

// labelled are the multiples of powers of ten that get numbers, as few as give four or more, and of how many powers each one gets them.
func (s scale) labelled(about int) (multiples []int, every int) {
	for _, multiples = range [...][]int{{1}, {1, 3}, {1, 2, 5}} {
		count := 0
		for _, m := range multiples {
			count += int(math.Floor(math.Log10(s.max/float64(m))+1e-9)) - int(math.Ceil(math.Log10(s.min/float64(m))-1e-9)) + 1
		}
		const enough = 4
		if count >= enough {
			return multiples, max(1, count/max(2*about, enough))
		}
	}
	return multiples, 1
}

// power prints the value of a tick on a logarithmic axis; a very great or small one as a power of ten.
func power(v float64) string {
	if v < 1e6 && v >= 1e-4*(1-1e-9) {
		return spaced(strconv.FormatFloat(v, 'f', -1, 64))
	}
	e := int(math.Floor(math.Log10(v) + 1e-9))
	text := "10" + raisedDigits(e)
	if m := v / math.Pow(10, float64(e)); m > 1.5 {
		text = strconv.FormatFloat(m, 'f', 0, 64) + "·" + text
	}
	return text
}

// raisedDigits sets an exponent.
func raisedDigits(e int) string {
	return strings.Map(func(r rune) rune {
		if r == '-' {
			return exponents()[10]
		}
		return exponents()[r-'0']
	}, strconv.Itoa(e))
}

// spaced parts the thousands of a number of five or more digits.
func spaced(s string) string {
	whole, rest, dot := strings.Cut(s, ".")
	digits := strings.TrimPrefix(whole, "-")
	if len(digits) > 4 {
		whole = whole[:len(whole)-3] + "\u00a0" + whole[len(whole)-3:]
	}
	if dot {
		return whole + "." + rest
	}
	return whole
}

// evenly tells whether rising or falling positive values step by ratio rather than by
// difference.
func evenly(values []float64) (byRatio bool) {
	n := len(values)
	if n < 3 {
		return false
	}
	for _, v := range values {
		if !(v > 0) {
			return false
		}
	}
	difference, ratio := 0.0, 0.0
	for i, v := range values {
		share := float64(i) / float64(n-1)
		straight := values[0] + (values[n-1]-values[0])*share
		bent := values[0] * math.Pow(values[n-1]/values[0], share)
		difference = math.Max(difference, math.Abs(v-straight)/v)
		ratio = math.Max(ratio, math.Abs(v-bent)/v)
	}
	return ratio < difference
}
