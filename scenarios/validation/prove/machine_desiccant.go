package prove

import (
	"strandry/diffusion/machine/desiccant"
	"strandry/materials/humidair"
)

const desiccantFamily = "desiccant"

// desiccants are isotherms, hydrates, heats, and the life of a bed.
func desiccants() []Check {
	return append(append(desiccantLoads(), desiccantHeats()...), desiccantBeds()...)
}

// asked makes the computation of what the isotherm of a kind tells.
func asked(k desiccant.Kind, number func(i *desiccant.Isotherm) (float64, error)) func() (float64, error) {
	return func() (float64, error) {
		i, err := desiccant.Of(k)
		if err != nil {
			return 0, err
		}
		return number(&i)
	}
}

// load is the uptake of a kind at a vapour pressure [Pa] and a temperature [°C].
func load(k desiccant.Kind, p, celsius float64) func() (float64, error) {
	return asked(k, func(i *desiccant.Isotherm) (float64, error) { return i.Uptake(p, celsius+zeroCelsius) })
}

// humid is the vapour pressure [Pa] of a relative humidity at a temperature [°C].
func humid(rh, celsius float64) float64 { return humidair.VapourPressureAt(rh, celsius+zeroCelsius) }

func desiccantLoads() []Check {
	const (
		fitted = "; the law was fitted to it and to others"
		gels   = "two gels of one name differ by a third"
	)
	nastaj := origin{desiccantFamily, "Nastaj & Aleksandrzak, J. Chem. Eng. Data (2013), doi 10.1021/je400517c, Table 3" + fitted, Published, relative(0.24, gels)}
	sakoda := origin{desiccantFamily, "Sakoda & Suzuki, J. Chem. Eng. Japan 17 (1984) 52, another gel: 0.346 (p/psat)^0.625, computed (independent code)", Computed, relative(0.24, gels)}
	sapienza := origin{desiccantFamily, "Sapienza et al., Renewable Energy 110 (2017) 40, another gel: Dubinin-Astakhov, 0.38 kg/kg, 3962.2 J/mol, 1.1, computed (independent code)", Computed, relative(0.24, gels)}
	wang := origin{desiccantFamily, "Wang & LeVan, J. Chem. Eng. Data 54 (2009) 2839, a measured point of their own", Published, relative(0.07, "how far their law lies from their points")}
	nascimento := origin{desiccantFamily, "Nascimento et al., Adsorption (2021), doi 10.1007/s10450-021-00331-x, zeolite of Linde type A", Published, relative(0.1, "read from a figure, the ion not stated")}
	pera := origin{desiccantFamily, "Pera-Titus et al., Ind. Eng. Chem. Res. (2008), doi 10.1021/ie071645b, zeolite NaA", Published, relative(0.1, "read from a figure; hot points of this source are in doubt")}
	masses := origin{desiccantFamily, "molar masses, 40.078 + 2·35.453 and 18.015 g/mol", Computed, absolute(1e-4, "five digits")}
	const gel, sieve4A, sieve5A, sieve13X = desiccant.SilicaGel, desiccant.MolecularSieve4A, desiccant.MolecularSieve5A, desiccant.MolecularSieve13X
	uptake := func(o origin, name string, expected float64, compute func() (float64, error)) Check {
		return o.check(name, "load", "kg/kg", expected, compute)
	}
	return []Check{
		uptake(nastaj, "silica gel, 20 °C, 942.5 Pa", 0.2167, load(gel, 942.5, 20)),
		uptake(nastaj, "silica gel, 100 °C, 1412.5 Pa", 0.00983, load(gel, 1412.5, 100)),
		uptake(sakoda, "silica gel, 25 °C, 50 %", 0.2244, load(gel, humid(0.5, 25), 25)),
		uptake(sapienza, "silica gel, 30 °C, 1200 Pa", 0.1730, load(gel, 1200, 30)),
		uptake(sapienza, "silica gel, 60 °C, 1200 Pa", 0.0464, load(gel, 1200, 60)),
		uptake(wang, "molecular sieve 5A, 50 °C, 418 Pa", 0.1729, load(sieve5A, 418.13, 50)),
		uptake(wang, "molecular sieve 5A, 100 °C, 464 Pa", 0.0920, load(sieve5A, 464.16, 100)),
		uptake(wang, "molecular sieve 13X, 25 °C, 43.8 Pa", 0.1848, load(sieve13X, 43.76, 25)),
		uptake(wang, "molecular sieve 13X, 75 °C, 1027 Pa", 0.1825, load(sieve13X, 1027.2, 75)),
		uptake(nascimento, "molecular sieve 4A, 30 °C, 15.4 %", 0.184, load(sieve4A, humid(0.154, 30), 30)),
		uptake(pera, "molecular sieve 4A, 60 °C, 1339 Pa", 0.1737, load(sieve4A, 1339.4, 60)),
		uptake(masses, "calcium chloride dihydrate", 0.32465, func() (float64, error) { return desiccant.HydrateLoad(2) }),
		uptake(masses, "calcium chloride tetrahydrate", 0.6493, load(desiccant.CalciumChloride, humid(0.15, 20), 20)),
	}
}

// heatOf is the isosteric heat of a kind at a load and a temperature [°C].
func heatOf(k desiccant.Kind, w, celsius float64) func() (float64, error) {
	return asked(k, func(i *desiccant.Isotherm) (float64, error) { return i.IsostericHeat(w, celsius+zeroCelsius) })
}

func desiccantHeats() []Check {
	const quantity, unit = "heat of sorption", "J/kg"
	chua := origin{desiccantFamily, "Chua et al., Int. J. Heat Mass Transfer 47 (2004) 659: 2.693 MJ/kg whatever the load", Published, relative(0.05, "another gel, and a heat that does not fall with load")}
	wang := origin{desiccantFamily, "57 kJ/mol by points of Wang & LeVan, J. Chem. Eng. Data 54 (2009) 2839, at 25 to 100 °C", Computed, relative(0.05, "differences of a few points")}
	meet := origin{desiccantFamily, "Stahlbuhk, Saltwiki, Calcium chloride: at 30 °C, where tetrahydrate, hexahydrate and solution meet, 22 %, the most at which the tetrahydrate deliquesces; ours from 18.5 % at 20 °C and the heat of hydration", Computed, absolute(0.01, "two digits; that the most lies at 30 °C is our reading")}
	return []Check{
		chua.check("silica gel, 0.10 kg/kg, 30 °C", quantity, unit, 2.693e6, heatOf(desiccant.SilicaGel, 0.1, 30)),
		wang.check("molecular sieve 13X, 0.15 kg/kg, 60 °C", quantity, unit, 57e3/humidair.MolarMass, heatOf(desiccant.MolecularSieve13X, 0.15, 60)),
		meet.check("calcium chloride, tetra- and hexahydrate, 30 °C", "relative humidity", "-", 0.22, func() (float64, error) {
			p, err := desiccant.TetrahydrateHexahydrate.VapourPressure(30 + zeroCelsius)
			return humidair.RelativeHumidity(p, 30+zeroCelsius), err
		}),
	}
}

func desiccantBeds() []Check {
	hand := origin{desiccantFamily, "20 g over 0.10737178 g/h, by hand", Computed, relative(1e-4, "five digits")}
	stair := origin{desiccantFamily, "calcium chloride from dry to the tetrahydrate: 649.30 g over 1 g/h, by hand", Computed, relative(1e-4, "five digits")}
	life := func(k desiccant.Kind, mass func(capacity float64) float64, p, rate float64) func() (float64, error) {
		return asked(k, func(i *desiccant.Isotherm) (float64, error) {
			bed := desiccant.Bed{Isotherm: *i, DryMass: 1, Temperature: 20 + zeroCelsius, Share: 1}
			capacity, err := bed.Capacity(p)
			if err != nil {
				return 0, err
			}
			bed.DryMass = mass(capacity.Likely)
			l, err := bed.Life(p, func(float64) float64 { return rate / 3.6e6 })
			return l.Seconds / 3600, err
		})
	}
	return []Check{
		hand.check("bed of 20 g capacity", "life", "h", 186.27, life(desiccant.SilicaGel, func(c float64) float64 { return 0.020 / c }, 100, 0.10737178)),
		stair.check("bed of 1 kg of calcium chloride", "life", "h", 649.30, life(desiccant.CalciumChloride, func(float64) float64 { return 1 }, humid(0.15, 20), 1)),
	}
}
