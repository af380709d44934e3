package prove

// orders measure how fast the solver's error falls.
func orders() []Check {
	limit := absolute(0.3, "the order is a limit; on the coarsest grids and steps a few tenths are missing")
	const family = "orders of the solver"
	space := origin{family, "storage by parabolas over exact fluxes: fourth order in the spacing, by Taylor's series", Computed, limit}
	time := origin{family, "RODAS: fourth order in the step, Hairer & Wanner, Solving Ordinary Differential Equations II (1996), IV.7 (number from memory)", Memory, limit}
	reduced := origin{family, "beside surroundings that vary a method of stage order one keeps from 2 to 4: Hairer & Wanner (1996), IV.15 (number from memory)",
		Memory, absolute(1.3, "half of the span from 2 to 4, and 0.3 as above")}
	measured := func(place int) func() (float64, error) {
		return func() (float64, error) {
			problems, err := smooth()
			if err != nil {
				return 0, err
			}
			refine := known.inSpace
			if place >= len(problems) {
				refine = known.inTime
			}
			order, err := refine(problems[place%len(problems)])
			return order.Measured, err
		}
	}
	return []Check{
		space.check("slowest mode under a film", "in space", "-", 4, measured(0)),
		space.check("manufactured solution", "in space", "-", 4, measured(1)),
		time.check("slowest mode under a film", "in time", "-", 4, measured(2)),
		reduced.check("manufactured solution", "in time", "-", 3, measured(3)),
	}
}
