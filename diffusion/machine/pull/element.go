package pull

import (
	"cmp"
	"math"
)

// Element is what acts on the strand at a stage: [Drag], [Guide], [Roller], [Driven] or [Floor].
type Element interface {
	check() error
	bend() bend
	// after is the tension behind it [N] in one case, for the one before it and what bending takes.
	after(before, bending float64, i int, s Strand) float64
}

// bend is what a strand is bent over: radius of the centre line [m], 0 for nothing, and the share of the work that is lost.
type bend struct {
	radius float64
	lost   Range
}

// Drag is a force that holds the strand back, whatever its tension: a brake, or a spool whose drag was weighed.
type Drag struct {
	Force Range // [N], 0 to 1e5
}

func (Drag) bend() bend { return bend{} }

func (d Drag) check() error { return d.Force.check("drag", 0, mostTension, "N") }

func (d Drag) after(before, _ float64, i int, _ Strand) float64 { return before + d.Force.at(i) }

// Guide is a fixed thing that the strand slides round: an eye, a rod, a bent tube.
type Guide struct {
	Friction Range   // between strand and guide [-], 0 to 2
	Angle    float64 // of wrap [rad], 0 to 200
	Radius   float64 // of the strand's centre line [m]; 0 where it is not bent
	Lost     Range   // share of the work of bending that is lost [-], 0 to 2; zero leaves it out
}

func (g Guide) check() error {
	return cmp.Or(g.Friction.check("friction of the guide", 0, mostFriction, "(a coefficient)"), within("wrap of the guide", g.Angle, 0, mostAngle, "rad"), g.bend().check())
}

func (g Guide) bend() bend { return bend{g.Radius, g.Lost} }

func (g Guide) after(before, bending float64, i int, _ Strand) float64 {
	return before*math.Exp(g.Friction.at(i)*g.Angle) + bending
}

// Roller turns with the strand on a bearing; a drum that the strand drags round is a heavy one.
type Roller struct {
	Angle   float64 // of wrap [rad], 0 to 1e5
	Radius  float64 // of the strand's centre line on it [m]
	Bearing Range   // coefficient of the bearing's friction [-], 0 to 2
	Bore    float64 // diameter of the bearing's bore [m], less than that of the roller
	Weight  float64 // of what turns [N], 0 to 1e5
	Lost    Range   // share of the work of bending that is lost [-], 0 to 2; zero leaves it out
}

func (r Roller) check() error {
	if err := cmp.Or(within("wrap of the roller", r.Angle, 0, mostTurned, "rad"), within("radius on the roller", r.Radius, leastLength, mostLength, "m"),
		r.Bearing.check("friction of the bearing", 0, mostFriction, "(a coefficient)"), within("bore of the bearing", r.Bore, leastLength, 2*r.Radius, "m"),
		within("weight of the roller", r.Weight, 0, mostTension, "N"), r.bend().check()); err != nil {
		return err
	}
	return within("friction of the bearing times its bore over the roller's diameter", r.lever(high), 0, 0.9, "(a fraction)")
}

func (r Roller) bend() bend { return bend{r.Radius, r.Lost} }

// lever is the friction force at the strand over the load on the axle [-].
func (r Roller) lever(i int) float64 { return r.Bearing.at(i) * r.Bore / (2 * r.Radius) }

// after solves T₂ = T₁ + more + y with y = k P(T₁, T₂), more = B + k W: squared, it is a quadratic equation for y, whose positive root has no differences in it.
func (r Roller) after(before, bending float64, i int, _ Strand) float64 {
	k := r.lever(i)
	more := bending + k*r.Weight
	half := math.Sin(r.Angle / 2)
	turned := 2 * before * half * half          // T₁ (1 − cos θ)
	press := more*more + 2*turned*(before+more) // P² without y
	c, d := k*k*(more+turned), (1-k)*(1+k)      // d y² − 2 c y − k² P² = 0
	return before + more + (c+math.Sqrt(c*c+d*k*k*press))/d
}

// Driven is a drum that a motor turns: it takes the tension before it up and leaves another behind it.
type Driven struct {
	Friction Range   // between strand and drum [-], 0 to 2
	Angle    float64 // of wrap [rad], 0 to 1e5
	Left     Range   // tension that its control leaves behind it [N], 0 to 1e5
}

func (d Driven) check() error {
	return cmp.Or(d.Friction.check("friction on the driven drum", 0, mostFriction, "(a coefficient)"), within("wrap of the driven drum", d.Angle, 0, mostTurned, "rad"),
		d.Left.check("tension behind the driven drum", 0, mostTension, "N"))
}

func (Driven) bend() bend { return bend{} }

func (d Driven) after(before, _ float64, i int, _ Strand) float64 {
	return max(d.Left.at(i), before*math.Exp(-d.Friction.at(high-i)*d.Angle)) // the best grip leaves least
}

// Floor is a straight piece that the strand slides along under its weight.
type Floor struct {
	Friction Range   // [-], 0 to 2
	Length   float64 // [m], 0 to 1e4
}

func (Floor) bend() bend { return bend{} }

func (f Floor) check() error {
	return cmp.Or(f.Friction.check("friction of the floor", 0, mostFriction, "(a coefficient)"), within("length of the floor", f.Length, 0, mostLength, "m"))
}

func (f Floor) after(before, _ float64, i int, s Strand) float64 {
	const gravity = 9.80665 // [m/s²]
	return before + f.Friction.at(i)*s.Density*s.Section()*gravity*f.Length
}
