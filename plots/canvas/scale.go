package canvas

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"strandry/plots/words"
)

// Scale carries the values of an axis to the unit interval.
type Scale struct {
	Min, Max float64
	Log      bool // by ratio; both ends above zero
	Root     bool // by the root, as what diffuses goes with time; both ends zero or more
}

// Norm is the share of the way along the axis at which a value lies.
func (s Scale) Norm(v float64) float64 {
	if s.Log {
		return math.Log(v/s.Min) / math.Log(s.Max/s.Min)
	}
	if s.Root {
		return (math.Sqrt(v) - math.Sqrt(s.Min)) / (math.Sqrt(s.Max) - math.Sqrt(s.Min))
	}
	return (v - s.Min) / (s.Max - s.Min)
}

// Value is the inverse of Norm.
func (s Scale) Value(norm float64) float64 {
	if s.Log {
		return s.Min * math.Pow(s.Max/s.Min, norm)
	}
	if s.Root {
		root := math.Sqrt(s.Min) + (math.Sqrt(s.Max)-math.Sqrt(s.Min))*norm
		return root * root
	}
	return s.Min + (s.Max-s.Min)*norm
}

// Holds tells that a value is on the axis.
func (s Scale) Holds(v float64) bool { return v >= s.Min && v <= s.Max }

// LinearOver gives a linear scale over the values, from zero if they come near it, a
// little wider than they are.
func LinearOver(values []float64) Scale {
	low, high := Bounds(values)
	if low > 0 && low < high/2 {
		low = 0
	}
	room := (high - low) * 0.06
	if room == 0 {
		room = math.Max(math.Abs(high)*0.1, 1e-9)
	}
	s := Scale{Min: low - room, Max: high + room}
	if low >= 0 && s.Min < 0 {
		s.Min = 0
	}
	return s
}

// LogOver gives a logarithmic scale over positive values, a little wider.
func LogOver(values []float64) Scale {
	low, high := Bounds(values)
	room := math.Max(math.Pow(high/low, 0.06), 1.15)
	return Scale{Min: low / room, Max: high * room, Log: true}
}

// Bounds are the least and the greatest of some values, row by row.
func Bounds(rows ...[]float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range slices.Concat(rows...) {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

// Tick is a mark on an axis.
type Tick struct {
	Value float64
	Label string // "" for a minor one
}

func (t Tick) length() Length {
	if t.Label == "" {
		return tickLength / 2
	}
	return tickLength
}

// Ticks gives about so many labelled ticks.
func (s Scale) Ticks(about int) []Tick {
	if s.Log {
		return s.logTicks(about)
	}
	if s.Root {
		return s.rootTicks(about)
	}
	step := niceStep((s.Max - s.Min) / float64(max(about, 1)))
	for finer := 0; finer < 3 && math.Floor(s.Max/step+1e-9)-math.Ceil(s.Min/step-1e-9) < 2; finer++ { // two numbers tell too little
		step = niceStep(step / 2.5)
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	var out []Tick
	for k := math.Ceil(s.Min/step - 1e-9); k*step <= s.Max+1e-9*step; k++ {
		out = append(out, Tick{k * step, words.Spaced(strconv.FormatFloat(k*step+0, 'f', decimals, 64))})
	}
	return out
}

// rootTicks are simple numbers, each well to the left of the one after it.
func (s Scale) rootTicks(about int) []Tick {
	const crowded, powers = 0.7, 6 // a share of an even distance; how far down numbers go
	apart := crowded / float64(max(about, 1))
	var out []Tick
	last := 1 + apart
	add := func(v float64) {
		if at := s.Norm(v); v >= s.Min && v <= s.Max && at <= last-apart {
			out, last = append(out, Tick{v, words.Spaced(strconv.FormatFloat(v, 'f', -1, 64))}), at
		}
	}
	top := int(math.Floor(math.Log10(s.Max)))
	for e := top; e > top-powers; e-- {
		for _, m := range [...]string{"5", "3", "2", "1"} {
			if v, err := strconv.ParseFloat(m+"e"+strconv.Itoa(e), 64); err == nil && s.Norm(v) >= apart {
				add(v)
			}
		}
	}
	add(s.Min)
	slices.Reverse(out)
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

func (s Scale) logTicks(about int) []Tick {
	decades := math.Log10(s.Max / s.Min)
	if decades < 0.7 {
		linear := Scale{Min: s.Min, Max: s.Max}
		return linear.Ticks(min(about, 5))
	}
	labelled, every := s.labelled(about)
	var out []Tick
	for e := int(math.Floor(math.Log10(s.Min))); e <= int(math.Ceil(math.Log10(s.Max))); e++ {
		for m := 1; m < 10; m++ {
			v, err := strconv.ParseFloat(strconv.Itoa(m)+"e"+strconv.Itoa(e), 64)
			if err != nil || v < s.Min*(1-1e-9) || v > s.Max*(1+1e-9) {
				continue
			}
			t := Tick{Value: v}
			if slices.Contains(labelled, m) && e%every == 0 {
				t.Label = power(v)
			}
			out = append(out, t)
		}
	}
	return out
}

// labelled are the multiples of powers of ten that get numbers, as few as give four or more, and of how many powers each one gets them.
func (s Scale) labelled(about int) (multiples []int, every int) {
	for _, multiples = range [...][]int{{1}, {1, 3}, {1, 2, 5}} {
		count := 0
		for _, m := range multiples {
			count += int(math.Floor(math.Log10(s.Max/float64(m))+1e-9)) - int(math.Ceil(math.Log10(s.Min/float64(m))-1e-9)) + 1
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
		return words.Spaced(strconv.FormatFloat(v, 'f', -1, 64))
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
