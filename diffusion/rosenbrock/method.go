package rosenbrock

// Of the method: its stages, and its order of convergence in the step where the surroundings do not change
// or the step resolves the fastest mode of the grid. Beside surroundings that vary
// in time, a method of stage order one keeps about the second order in the nodes
// next to the surface on a fine grid, and between the second and its own in the
// content: Hairer & Wanner (1996), section IV.15 (number from memory).
const Stages, Order = 6, 4

// inverse is 1/(order of the embedded solution + 1).
const inverse = 1.0 / 4

// Tableau holds the coefficients of a method in the form that needs no product with the
// Jacobian: stage i solves
//
//	(M/(γh) - J) u_i = F(t + α_i h, y + Σ a_ij u_j) + M Σ (c_ij/h) u_j + γ_i h ∂F/∂t
//
// and the step ends at y + Σ m_j u_j; the last increment is the estimate of
// the error.
type Tableau struct {
	Gamma   float64
	A, C    [Stages][Stages]float64
	Alpha   [Stages]float64 // place of the stage in the step
	Dt      [Stages]float64 // γ_i
	Advance [Stages]float64 // m
}

// Method is L-stable, with an embedded
// solution of order three: RODAS of Hairer & Wanner, Solving Ordinary
// Differential Equations II (1996), section IV.7 (coefficients from memory,
// their order measured by the tests). To be read only.
func Method() *Tableau { return &rodas }

var rodas = Tableau{
	Gamma: 0.25,
	A: [Stages][Stages]float64{
		{},
		{1.544},
		{0.9466785280815826, 0.2557011698983284},
		{3.314825187068521, 2.896124015972201, 0.9986419139977817},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
		{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1},
	},
	C: [Stages][Stages]float64{
		{},
		{-5.6688},
		{-2.430093356833875, -0.2063599157091915},
		{-0.1073529058151375, -9.594562251023355, -20.47028614809616},
		{7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
		{8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
	},
	Alpha:   [Stages]float64{0, 0.386, 0.21, 0.63, 1, 1},
	Dt:      [Stages]float64{0.25, -0.1043, 0.1035, -0.03620000000000023, 0, 0},
	Advance: [Stages]float64{1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1, 1},
}
