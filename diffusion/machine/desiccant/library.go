package desiccant

const (
	wangLevan  = "Y. Wang and M. D. LeVan, J. Chem. Eng. Data 54 (2009) 2839, the law of Toth with the parameters printed there"
	hottest    = 623.15 // to which the properties of moist air go [K]
	coldest    = 274.15 // above freezing, so that the saturation pressure is over liquid [K]
	celsius0   = 273.15
	zeolite    = 0.855 // of the loads of 5A, least squares over the points of 4A named in its choice
	sieveHeats = "above 100 °C it is extrapolated"
)

// Of returns the isotherm of a kind; an error for an unknown one.
func Of(k Kind) (Isotherm, error) {
	if err := k.check(); err != nil {
		return Isotherm{}, err
	}
	return [...]func() Isotherm{silicaGel, sieve4A, sieve5A, sieve13X, calciumChloride}[k](), nil
}

// silicaGel is a characteristic curve through measured points of two gels.
func silicaGel() Isotherm {
	return Isotherm{
		Kind: SilicaGel,
		Source: "the law of Dubinin and Astakhov, fitted here to points of J. Nastaj and B. Aleksandrzak, J. Chem. Eng. Data (2013), doi 10.1021/je400517c, table 3 (20 to 140 °C), " +
			"and of Y. Wang and M. D. LeVan, J. Chem. Eng. Data 54 (2009) 2839 (25 and 50 °C)",
		Choice: "of a beaded gel of narrow pores (type A or RD); it lies between two gels that differ from one another by a third at low humidity. Published laws lie further from these points: " +
			"the one of A. Sapienza et al., Renewable Energy 110 (2017) 40, leaves two thirds to an eighth of what was measured at 140 °C, and that of Wang and LeVan implies a heat that grows with load, from below that of boiling. " +
			"A gel of wide pores holds hardly a third of it below half saturation",
		Range:       Range{Coldest: celsius0 + 20, Hottest: celsius0 + 140, Least: 27, Most: 2430, Humidity: 0.8},
		Uncertainty: Uncertainty{Relative: 0.24, Absolute: 0.0015, Of: "the points of both gels, which it was fitted to"},
		law:         potential{limit: 0.56, energy: 2100, exponent: 0.756},
		coldest:     coldest, hottest: celsius0 + 180,
	}
}

func sieve5A() Isotherm {
	return Isotherm{
		Kind: MolecularSieve5A, Source: wangLevan,
		Choice:      "the only law with measured points from room temperature to 100 °C whose heat of sorption is plausible; " + sieveHeats,
		Range:       Range{Coldest: celsius0, Hottest: celsius0 + 100, Least: 15, Most: 1660, Humidity: 1},
		Uncertainty: Uncertainty{Relative: 0.07, Absolute: 0.0015, Of: "points of the same publication at 50 and 100 °C"},
		law:         fiveA(), coldest: coldest, hottest: hottest,
	}
}

func fiveA() toth { return toth{ws: 0.422675, b0: 4.714e-13, q: 9955, n0: 0.3548, c: -51.14} }

// sieve4A has the heats of 5A, since the hot points of its own are in doubt.
func sieve4A() Isotherm {
	i := sieve5A()
	i.Kind = MolecularSieve4A
	i.Source = "0.855 of the loads of 5A (" + wangLevan + "), the share fitted here to points of zeolite NaA at 32 °C: " +
		"M. Pera-Titus et al., Ind. Eng. Chem. Res. (2008), doi 10.1021/ie071645b, from 5 to 41 % relative humidity"
	i.Choice = "the same lattice as 5A with another ion. Measured points of NaA at 60 to 150 °C give a heat of sorption below that of boiling, which cannot be: " +
		"they were not used, and at 150 °C the law lies a third above them. No hot points that can be trusted were found; " + sieveHeats
	i.Range = Range{Coldest: celsius0 + 25, Hottest: celsius0 + 60, Least: 100, Most: 2340, Humidity: 0.5}
	i.Uncertainty = Uncertainty{Relative: 0.1, Absolute: 0.004, Of: "twice that of points of two publications at 30 to 60 °C, since the law of temperature is that of another zeolite and beads hold a binder"}
	i.law = scaled{fiveA(), zeolite}
	return i
}

func sieve13X() Isotherm {
	return Isotherm{
		Kind: MolecularSieve13X, Source: wangLevan,
		Choice:      "as for 5A; " + sieveHeats,
		Range:       Range{Coldest: celsius0, Hottest: celsius0 + 100, Least: 10, Most: 1830, Humidity: 1},
		Uncertainty: Uncertainty{Relative: 0.055, Absolute: 0.0015, Of: "points of the same publication at 25 and 75 °C"},
		law:         toth{ws: 0.271875, b0: 2.408e-10, q: 6852, n0: 0.3974, c: -4.199}, coldest: coldest, hottest: hottest,
	}
}

func calciumChloride() Isotherm {
	return Isotherm{
		Kind:   CalciumChloride,
		Source: "A. Stahlbuhk, Saltwiki, Calcium chloride, table 1 (relative humidity at 20 °C), heats from the NBS tables of 1982 (from memory), molar masses",
		Choice: "a stair of hydrates in equilibrium. Salt that takes up water fast lags behind it by an amount that is not known, and cakes; " +
			"the driest step, from the anhydrous salt to the monohydrate, rests on a figure from memory",
		Range:       Range{Coldest: celsius0 + 15, Hottest: celsius0 + 25, Least: 0, Most: 600, Humidity: 0.185},
		Uncertainty: Uncertainty{Relative: 0.05, Of: "nothing measured: the purity of the salt, common practice, no source"},
		law:         hydrates{}, coldest: celsius0 + 10, hottest: celsius0 + 45,
	}
}
