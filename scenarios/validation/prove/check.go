package prove

import (
	"math"
)

// Kind tells what sort of knowledge an expected value is.
type Kind int

// The kinds, from the best to the least.
const (
	Published   Kind = iota // the value itself is printed in the source
	Computed                // computed another way by code that shares nothing with this, or bound to hold in theory
	Transcribed             // the same formula computed once more: it shows that it is written down right, no more
	Memory                  // printed in the source, quoted from memory
	Practice                // common practice, a band and no source
)

// String returns the word used in the table.
func (k Kind) String() string {
	if k < Published || k > Practice {
		return "unknown"
	}
	return [...]string{"published", "computed", "transcription", "from memory", "common practice"}[k]
}

// Tolerance is the accuracy of a source: Absolute in the check's unit, or Relative
// to the expected value [-]. One of them is zero.
type Tolerance struct {
	Absolute, Relative float64
	Reason             string // why so much
}

// Within is the difference allowed from an expected value, in its unit.
func (t Tolerance) Within(expected float64) float64 {
	return t.Absolute + t.Relative*math.Abs(expected)
}

// Check is one value from outside and the way to compute it here.
type Check struct {
	Family    string // such as "humid air"
	Name      string // the case, such as "Bi = 1, Fo = 0.1"
	Quantity  string // such as "mean left"
	Unit      string // "-" for none
	Source    string
	Kind      Kind
	Expected  float64 // [Unit]
	Tolerance Tolerance

	compute func() (float64, error)
}

// Result is a check that was carried out.
type Result struct {
	Check
	Got        float64 // [Unit]; NaN if it could not be computed
	Difference float64 // Got less Expected [Unit]
	Within     float64 // difference allowed [Unit]
	Err        error   // why it could not be computed; nil otherwise
}

// Share is the size of the difference over the one allowed [-]: up to 1 for a check
// that is passed. It is infinite where nothing was computed.
func (r *Result) Share() float64 {
	share := math.Abs(r.Difference) / r.Within
	if r.Err != nil || math.IsNaN(share) {
		return math.Inf(1)
	}
	return share
}

// Passed tells whether the value lies within the tolerance. NaN does not, on either
// side.
func (r *Result) Passed() bool { return r.Share() <= 1 }

// carriedOut computes the check.
func (c Check) carriedOut() Result {
	r := Result{Check: c, Got: math.NaN(), Within: c.Tolerance.Within(c.Expected)}
	got, err := c.compute()
	if err == nil {
		r.Got = got
	}
	r.Err, r.Difference = err, r.Got-c.Expected
	return r
}

// origin is what checks from one source share.
type origin struct {
	family, source string
	kind           Kind
	tolerance      Tolerance
}

// check makes one of them.
func (o origin) check(name, quantity, unit string, expected float64, compute func() (float64, error)) Check {
	return Check{
		Family: o.family, Name: name, Quantity: quantity, Unit: unit, Source: o.source, Kind: o.kind,
		Expected: expected, Tolerance: o.tolerance, compute: compute,
	}
}

// plain makes a check of a function that cannot fail.
func (o origin) plain(name, quantity, unit string, expected float64, compute func() float64) Check {
	return o.check(name, quantity, unit, expected, func() (float64, error) { return compute(), nil })
}

func absolute(by float64, reason string) Tolerance { return Tolerance{Absolute: by, Reason: reason} }
func relative(by float64, reason string) Tolerance { return Tolerance{Relative: by, Reason: reason} }

const zeroCelsius = 273.15 // [K]

// withTolerance is the same origin with a tolerance of its own.
func (o origin) withTolerance(t Tolerance) origin {
	o.tolerance = t
	return o
}
