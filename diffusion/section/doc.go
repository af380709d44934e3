// Package section marches diffusion in the cross-section of a solid cylinder whose perimeter is partly covered. It
// knows what package radial knows, and a shape; nothing of what is diffusing.
//
// # Equation
//
// For a field c(r, θ, t) on 0 <= r <= R,
//
//	∂c/∂t = div( k(r, t) grad G(c) ),   G a rising function of c
//
// n arcs evenly round are covered, and a share s of the perimeter is exposed. With θ from the middle of an exposed arc,
//
//	-k ∂G/∂r = j(t, c, q)   for θ < s π/n,   and zero from there to π/n,
//
// at r = R; the rest is symmetry. q is the amount that has left since the march began, per radian in the mean over the whole
// perimeter, and unit length. The conductance, the potential, the exchange and the companion are those of package radial. The
// exchange takes place node by node, at the value that stands there; what it loads on a companion is averaged over the whole
// perimeter. With s = 1 all nodes of a circle are alike, and they are those of package radial.
//
// A film thinned by the covered share is no substitute: behind a cover the field has to go round inside.
//
// # Angles
//
// The flux at the edge of a cover goes with the distance to the power -1/2, and the field behind it with the root of the
// distance. With φ = nθ and y the angle from the middle of an arc whose edge lies at y = f, take on each arc polynomials in
//
//	X = sqrt((cos y - cos f)/(1 - cos f)),
//
// which is one in the middle and even about it, and goes with that root at the edge: few of them hold what would take very many
// nodes otherwise. The nodes are those of Gauss and Radau for the measure dy with the edge as a node, so that the weights of the
// nodes, which are the integrals of the node functions, are positive and integrate all products of the functions. Storage is lumped in
// the angle by these weights. The node on the edge counts as exposed with the part of its weight that lies there.
//
// The functions of a circle inside are those of the surface continued as steady fields, mode by mode with exp(-m n ln(R/r)), and
// combined anew to be one at their own node and zero at the others. A steady field whose trace at the surface is held
// is held on all circles then, and the singularity need not be resolved along the radius. To
// continue them further than about a tenth of an arc would amplify differences between the nodes without end; they stay as they are
// from the depth on where that passes thirty.
//
// # Space
//
// Between two circles that stand L = ln(r[i+1]/r[i]) apart the steady field is known, mode by mode. Mode m of the potential,
// cos(m φ), draws from the two circles, with Q = exp(-m n L), per unit of conductance
//
//	m n/(1 - Q²) × [ 1+Q²  -2Q ; -2Q  1+Q² ],   and   [ 1 -1 ; -1 1 ]/L  for the mean,
//
// and m n from the innermost. Projected on the node functions these make a symmetric matrix for each gap, on the nodes of its two
// circles; the modes beyond the three hundredth come in by their leading term, which goes with the root at the
// edge. The flux is thus exact in the radius, however strongly the diffusivity depends on c, and for the angle
// quadratic in what the functions fail to hold. The storage along the radius is that of package radial. It is meant
// for the mean; that all modes are stored alike leaves an error of the second order in the spacing, below 1e-5 at
// twenty radii.
//
// Each matrix takes nothing from a uniform field, and being symmetric gives to one circle what it takes from the other, so that
//
//	d/dt ∫ c r dr = -R × mean of j over the perimeter,
//
// to round-off.
//
// # Time
//
// The methods and the control of package rosenbrock, as in package radial. The Jacobian is block tridiagonal, one block for
// each circle, factorised once a step from both ends towards the middle, without pivots beyond a block. The amount lost is eliminated beforehand and adds a
// product to the last block; a companion borders the system and costs one more solve.
//
// # Error
//
// Largest difference of the mean from independent references (testdata/section), of the start, on 15 radii with a stretch
// of 3 and at a tolerance of 1e-3 (1e-4 for nine angles): arcs held at zero, shares of 0.25 to 0.95, one, two and four arcs, diffusivities that grow up to
// exp(3) times, Fourier numbers of 0.01 to 1; and films of Biot numbers 1 to 100 that dry and wet again.
//
//	angles       held arcs           films
//	             largest    rms      largest    rms
//	4  coarse    0.15 %     0.03 %   0.29 %     0.10 %
//	6  usual     0.053 %    0.008 %  0.078 %    0.028 %
//	9  refined   0.014 %    0.004 %  0.019 %    0.007 %
//	12, 30 radii 0.005 %    0.001 %  0.008 %    0.003 %
//
// More radii with a greater stretch, for thinner skins, leave that as it is. Smaller shares ask for more angles: at one tenth
// exposed 0.18 %, 0.005 % and 0.005 % with 4, 6 and 9 of them, at 0.03 1.3 %, 0.03 % and less than 0.01 %, at 0.01 2.3 %, 0.4 % and 0.04 %
// (held arc, Fo = 0.1).
//
// From Fo = 0.01 on the field of these cases stays within its start and its surroundings to a hundredth of the step; before, while
// the skin crosses the outermost gaps, it may pass by as much as in package radial, a tenth. Steeper fronts, of diffusivities that
// grow more than a hundred times, pass by up to a twentieth later too. The number of nodes behind a cover changes with the share exposed
// in steps, and with it the mean by less than the error above.
//
// # What is left out
//
// Sources, prescribed surface values, exchange that depends on the angle otherwise than by its surface value, conductances
// that vary round the section other than through G.
package section
