package rosenbrock

// Scheme names a Rosenbrock method.
type Scheme int

const (
	// Order4 has six stages, is of order four and L-stable, with an embedded
	// solution of order three: RODAS of Hairer & Wanner, Solving Ordinary
	// Differential Equations II (1996), section IV.7 (coefficients from memory,
	// their order measured by the tests).
	Order4 Scheme = iota
	// Order3 has four stages, is of order three and L-stable, with an embedded
	// solution of order two: RODAS3 of Sandu et al., Atmospheric Environment
	// 31 (1997) 3459 (coefficients from memory, their order measured by the
	// tests).
	Order3
)

// Schemes lists the methods.
func Schemes() []Scheme { return []Scheme{Order4, Order3} }

// Order is the order of convergence in the step where the surroundings do not change
// or the step resolves the fastest mode of the grid. Beside surroundings that vary
// in time, a method of stage order one keeps about the second order in the nodes
// next to the surface on a fine grid, and between the second and its own in the
// content: Hairer & Wanner (1996), section IV.15 (number from memory).
func (s Scheme) Order() int {
	if s == Order3 {
		return 3
	}
	return 4
}

func (s Scheme) String() string {
	if s == Order3 {
		return "Rosenbrock, order 3, 4 stages"
	}
	return "Rosenbrock, order 4, 6 stages"
}

// MaxStages is the largest number of stages of a method.
const MaxStages = 6

// Tableau holds the coefficients of a method in the form that needs no product with the
// Jacobian: stage i solves
//
//	(M/(γh) - J) u_i = F(t + α_i h, y + Σ a_ij u_j) + M Σ (c_ij/h) u_j + γ_i h ∂F/∂t
//
// and the step ends at y + Σ m_j u_j; the last increment is the estimate of
// the error in both methods.
type Tableau struct {
	Stages  int
	Gamma   float64
	A, C    [MaxStages][MaxStages]float64
	Alpha   [MaxStages]float64 // place of the stage in the step
	Dt      [MaxStages]float64 // γ_i
	Fresh   [MaxStages]bool    // the stage needs a new evaluation of F
	Advance [MaxStages]float64 // m
	Inverse float64            // 1/(order of the embedded solution + 1)
}

// Tableau gives the coefficients of the method, to be read only.
func (s Scheme) Tableau() *Tableau {
	if s == Order3 {
		return &order3
	}
	return &order4
}

var order3 = Tableau{
	Stages: 4, Gamma: 0.5, Inverse: 1.0 / 3,
	A:       [MaxStages][MaxStages]float64{{}, {}, {2}, {2, 0, 1}},
	C:       [MaxStages][MaxStages]float64{{}, {4}, {1, -1}, {1, -1, -8.0 / 3}},
	Alpha:   [MaxStages]float64{0, 0, 1, 1},
	Dt:      [MaxStages]float64{0.5, 1.5, 0, 0},
	Fresh:   [MaxStages]bool{true, false, true, true},
	Advance: [MaxStages]float64{2, 0, 1, 1},
}

var order4 = Tableau{
	Stages: 6, Gamma: 0.25, Inverse: 1.0 / 4,
	A: [MaxStages][MaxStages]float64{
		{},
		{1.544},
		{0.9466785280815826, 0.2557011698983284},
		{3.314825187068521, 2.896124015972201, 0.9986419139977817},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1},
	},
	C: [MaxStages][MaxStages]float64{
		{},
		{-5.6688},
		{-2.430093356833875, -0.2063599157091915},
		{-0.1073529058151375, -9.594562251023355, -20.47028614809616},
		{7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
		{8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
	},
	Alpha:   [MaxStages]float64{0, 0.386, 0.21, 0.63, 1, 1},
	Dt:      [MaxStages]float64{0.25, -0.1043, 0.1035, -0.03620000000000023, 0, 0},
	Fresh:   [MaxStages]bool{true, true, true, true, true, true},
	Advance: [MaxStages]float64{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1, 1},
}
