package heat

// Energy is what running costs.
type Energy struct {
	PerKilogram float64 // of strand [J/kg]; 0 where no strand runs
	PerHour     float64 // [J]
}

// EnergyOf returns the energy of a power [W], all that is plugged in, while a flow of strand [kg/s] runs.
func EnergyOf(power, flow float64) (Energy, error) {
	err := within(bound{"power", power, 0, mostPower, "W", 0}, bound{"flow of strand", flow, 0, mostFlow, "kg/s", 0})
	if err != nil {
		return Energy{}, err
	}
	e := Energy{PerHour: 3600 * power}
	if flow > 0 {
		e.PerKilogram = power / flow
	}
	return e, nil
}
