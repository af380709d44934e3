package pull

import (
	"cmp"
	"math"
)

// Stretched is what a stress does to a strand while it lasts.
type Stretched struct {
	Known  bool  // whether the modulus is known; nothing else is said where it is not
	Strain Range // [-]
	// Thinner is the share by which the diameter falls [-].
	Thinner Range
}

// stretched is what a stress does to a strand of a modulus, zero where it is not known. Beyond a few hundredths of strain nothing is elastic any more; the number then says no more than that.
func stretched(stress, modulus Range) Stretched {
	if !modulus.Known() {
		return Stretched{}
	}
	poisson := Range{0.35, 0.4, 0.5} // glass to melt (from memory)
	out := Stretched{Known: true}
	var strain, thinner [cases]float64
	for i := range cases {
		strain[i] = stress.at(i) / modulus.at(high-i) // least where it is stiffest
		thinner[i] = -math.Expm1(-poisson.at(i) * math.Log1p(strain[i]))
	}
	out.Strain, out.Thinner = of(strain), of(thinner)
	return out
}

// Verdict is whether something is borne.
type Verdict int

// What may be said.
const (
	Unknown Verdict = iota // what is borne is not known
	Holds                  // even the most is no more than the least that is borne
	Doubtful
	Fails // even the least is more than the most that is borne
)

// String names it.
func (v Verdict) String() string { return [...]string{"unknown", "holds", "doubtful", "fails"}[v] }

// Against compares what is asked with what is borne or given, in the same unit, neither negative: the pull with what a feeder can give, the strain of a bend or of a pull with what the strand bears. Either may be unknown, by its zero value. Share is
// the middle of what is asked over the middle of what is borne [-], 0 where it is unknown.
func Against(asked, borne Range) (v Verdict, share float64, err error) {
	if err := cmp.Or(asked.check("what is asked", 0, 1e12, ""), borne.check("what is borne", 0, 1e12, "")); err != nil {
		return Unknown, 0, err
	}
	switch {
	case !borne.Known() || !asked.Known():
		return Unknown, 0, nil
	case borne.Value > 0:
		share = asked.Value / borne.Value
	}
	switch {
	case asked.High <= borne.Low:
		return Holds, share, nil
	case asked.Low > borne.High:
		return Fails, share, nil
	}
	return Doubtful, share, nil
}
