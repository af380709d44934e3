package prove

import (
	"context"

	"strandry/diffusion/parallel"
)

// Checks returns the table, family by family.
func Checks() []Check {
	var all []Check
	for _, family := range []func() []Check{
		roots, series, driven, stepOutside, varying, exponential, solver, orders, transit,
		covered, humidAir, transport, salts, films, heating, evaporation, machineHeat, sorption, desiccants, diffusivities, flows, invariants, machineLead,
	} {
		all = append(all, family()...)
	}
	return all
}

// Run carries out the table on so many goroutines (at least one): the results are in its order, and the same to the bit for any number of them. The error is that
// of the context, if that ends first.
func Run(ctx context.Context, workers int) ([]Result, error) {
	checks := Checks()
	return parallel.Map(ctx, make([]struct{}, max(1, workers)), len(checks), func(_ struct{}, i int) (Result, error) { return checks[i].carriedOut(), nil })
}
