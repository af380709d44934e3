package optimum_test

import (
	"context"
	"math"

	"strandry/diffusion/optimum"
)

// known is a problem with its published least cost.
type known struct {
	name      string
	variables []optimum.Variable
	at        func(x []float64) (cost float64, violations []float64)
	least     float64
	place     []float64
	within    float64 // of the cost, relative
	budget    int
}

func (k known) problem() *optimum.Problem {
	_, v := k.at(k.place)
	return &optimum.Problem{Variables: k.variables, Constraints: len(v), At: func(_ context.Context, x []float64) (optimum.Answer, error) {
		cost, violations := k.at(x)
		return optimum.Answer{Cost: cost, Violations: violations}, nil
	}}
}

// knownProblems are some of J. J. Liang et al., Problem definitions and evaluation criteria for the CEC 2006 special session on constrained real-parameter optimization,
// Nanyang Technological University (2006), with the least costs that are printed there, and two with discrete variables: a vessel (B. K. Kannan & S. N. Kramer,
// J. Mech. Des. 116:405-411 (1994)) whose optimum was proven by X.-S. Yang et al., Int. J. Bio-Inspired Comput. 5:329-335 (2013), and a gearbox (J. Golinski, J. Mech. 5:287-309 (1970)) with the
// least weight that later work agrees on. Violations are divided by a usual size of theirs.
func knownProblems() []known {
	box := func(bounds ...float64) []optimum.Variable {
		var all []optimum.Variable
		for i := 0; i < len(bounds); i += 2 {
			all = append(all, optimum.Variable{From: bounds[i], To: bounds[i+1]})
		}
		return all
	}
	return []known{
		{name: "g06", variables: box(13, 100, 0, 100), at: g06, least: -6961.81387558015, place: []float64{14.095, 0.84296078921}, within: 1e-4, budget: 400},
		{name: "g08", variables: box(0, 10, 0, 10), at: g08, least: -0.0958250414180359, place: []float64{1.22797135260752599, 4.24537336612274885}, within: 1e-4, budget: 400},
		{name: "g24", variables: box(0, 3, 0, 4), at: g24, least: -5.50801327159536, place: []float64{2.32952019747762, 3.17849307411774}, within: 1e-5, budget: 400},
		{name: "vessel", variables: vesselVariables(), at: vessel, least: 6059.714335048436, place: []float64{0.8125, 0.4375, 42.0984455958549, 176.6365958424394}, within: 6e-3, budget: 600},
		{name: "gearbox", variables: gearboxVariables(), at: gearbox, least: 2994.4710661, place: []float64{3.5, 0.7, 17, 7.3, 7.71531991, 3.35021467, 5.28665446}, within: 1e-4, budget: 600},
	}
}

func g06(x []float64) (float64, []float64) {
	cost := math.Pow(x[0]-10, 3) + math.Pow(x[1]-20, 3)
	return cost, []float64{(100 - sq(x[0]-5) - sq(x[1]-5)) / 100, (sq(x[0]-6) + sq(x[1]-5) - 82.81) / 100}
}

func g08(x []float64) (float64, []float64) {
	cost := 0.0
	if x[0] > 0 {
		cost = -math.Pow(math.Sin(2*math.Pi*x[0]), 3) * math.Sin(2*math.Pi*x[1]) / (math.Pow(x[0], 3) * (x[0] + x[1]))
	}
	return cost, []float64{(sq(x[0]) - x[1] + 1) / 10, (1 - x[0] + sq(x[1]-4)) / 10}
}

func g24(x []float64) (float64, []float64) {
	a := x[0]
	return -a - x[1], []float64{-2*math.Pow(a, 4) + 8*math.Pow(a, 3) - 8*a*a + x[1] - 2, -4*math.Pow(a, 4) + 32*math.Pow(a, 3) - 88*a*a + 96*a + x[1] - 36}
}

func vesselVariables() []optimum.Variable {
	var sheets []float64
	for i := 1; i <= 99; i++ {
		sheets = append(sheets, 0.0625*float64(i))
	}
	return []optimum.Variable{{Values: sheets}, {Values: sheets}, {From: 10, To: 200}, {From: 10, To: 200}}
}

func vessel(x []float64) (float64, []float64) {
	shell, head, r, l := x[0], x[1], x[2], x[3]
	cost := 0.6224*shell*r*l + 1.7781*head*r*r + 3.1661*shell*shell*l + 19.84*shell*shell*r
	volume := math.Pi*r*r*l + 4./3*math.Pi*r*r*r
	return cost, []float64{0.0193*r - shell, 0.00954*r - head, 1 - volume/1296000, (l - 240) / 240}
}

func gearboxVariables() []optimum.Variable {
	var teeth []float64
	for z := 17; z <= 28; z++ {
		teeth = append(teeth, float64(z))
	}
	return []optimum.Variable{{From: 2.6, To: 3.6}, {From: 0.7, To: 0.8}, {Values: teeth}, {From: 7.3, To: 8.3}, {From: 7.3, To: 8.3}, {From: 2.9, To: 3.9}, {From: 5, To: 5.5}}
}

func gearbox(x []float64) (float64, []float64) {
	b, m, z, l1, l2, d1, d2 := x[0], x[1], x[2], x[3], x[4], x[5], x[6]
	cost := 0.7854*b*m*m*(3.3333*z*z+14.9334*z-43.0934) - 1.508*b*(d1*d1+d2*d2) + 7.4777*(d1*d1*d1+d2*d2*d2) + 0.7854*(l1*d1*d1+l2*d2*d2)
	return cost, []float64{
		27/(b*m*m*z) - 1, 397.5/(b*m*m*z*z) - 1,
		1.93*l1*l1*l1/(m*z*math.Pow(d1, 4)) - 1, 1.93*l2*l2*l2/(m*z*math.Pow(d2, 4)) - 1,
		math.Sqrt(sq(745*l1/(m*z))+16.9e6)/(110*d1*d1*d1) - 1, math.Sqrt(sq(745*l2/(m*z))+157.5e6)/(85*d2*d2*d2) - 1,
		m*z/40 - 1, 5*m/b - 1, b/(12*m) - 1, (1.5*d1+1.9)/l1 - 1, (1.1*d2+1.9)/l2 - 1,
	}
}

func sq(x float64) float64 { return x * x }
