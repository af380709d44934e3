package machine

// count tells what parts and running cost, for a flow of strand [kg/s].
func (m *Machine) count(a *Answer, flow float64) {
	const hour = 3600
	c := &a.Cost
	c.Told = len(m.Parts) > 0 || m.Energy > 0
	for _, p := range m.Parts {
		amount := p.Count
		switch p.Per {
		case Metre:
			amount *= a.Chambers[p.Zone].Length
		case SquareMetre:
			amount *= a.Chambers[p.Zone].Lead.WallArea
		case Watt:
			amount *= a.Chambers[p.Zone].chosen()
		case Kilogram:
			amount *= m.Bed.Mass
		}
		c.Parts = append(c.Parts, p.Price*amount)
		c.Total += p.Price * amount
	}
	c.Energy = a.Power * hour
	if b := &a.Bed; b.Used && b.Life.Seconds > 0 {
		c.Energy += b.Regenerate.Total / b.Life.Seconds * hour
	}
	c.PerHour = m.Energy * c.Energy
	if flow > 0 {
		c.PerKilo = c.PerHour / hour / flow
	}
}

// chosen is the power of the heater: as stated, else what is needed with the margin [W].
func (h *Housed) chosen() float64 {
	if h.Heater > 0 {
		return h.Heater
	}
	return h.Size
}
