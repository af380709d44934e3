package prove

import (
	"fmt"

	"strandry/materials/humidair"
)

const airFamily = "humid air"

// humidAir is psychrometrics.
func humidAir() []Check {
	return append(append(saturation(), roomAir()...), moistAir()...)
}

func saturation() []Check {
	iapws := origin{airFamily, "IAPWS R7-97(2012), Tables 35 and 36", Published, relative(1e-8, "nine digits are printed")}
	ice := origin{airFamily, "over ice: IAPWS R14-08(2011), check value", Published, relative(1e-6, "six digits are printed")}
	frost := origin{airFamily, "over ice: ASHRAE Fundamentals, ch. 1, Table 3 (from memory)", Memory, relative(1e-3, "five and four digits, the last uncertain")}
	ashrae := origin{airFamily, "ASHRAE Fundamentals (2017), ch. 1, Table 3", Published,
		relative(1e-4, "printed to 0.1 Pa; the formulas in use differ by 0.01 to 0.02 %")}
	var out []Check
	for _, r := range []struct{ kelvin, pascal float64 }{{300, 0.353658941e4}, {500, 0.263889776e7}, {600, 0.123443146e8}} {
		out = append(out, iapws.plain(fmt.Sprintf("%g K", r.kelvin), "p sat", "Pa", r.pascal, func() float64 { return humidair.SaturationPressure(r.kelvin) }))
	}
	for _, r := range []struct{ pascal, kelvin float64 }{{1e5, 0.372755919e3}, {1e6, 0.453035632e3}, {1e7, 0.584149488e3}} {
		out = append(out, iapws.plain(fmt.Sprintf("%g Pa", r.pascal), "dew point", "K", r.kelvin, func() float64 { return humidair.DewPoint(r.pascal) }))
	}
	at := func(o origin, celsius, pascal float64) Check {
		return o.plain(fmt.Sprintf("%g °C", celsius), "p sat", "Pa", pascal, func() float64 { return humidair.SaturationPressure(celsius + zeroCelsius) })
	}
	out = append(out, at(ice, 230-zeroCelsius, 8.94735), at(frost, -20, 103.26), at(frost, -40, 12.84))
	for _, r := range []struct{ celsius, pascal float64 }{{5, 872.6}, {25, 3169.7}, {50, 12351.3}, {100, 101418.0}, {150, 476101.4}} {
		out = append(out, at(ashrae, r.celsius, r.pascal))
	}
	return out
}

// roomAir is air of 23 °C and 50 %, and the same heated.
func roomAir() []Check {
	const room = 23 + zeroCelsius
	pv := func() float64 { return humidair.VapourPressureAt(0.5, room) }
	o := origin{airFamily, "air of 23 °C and 50 %: computed from IAPWS R7-97 and ASHRAE Fundamentals (2017), ch. 1 (independent code)",
		Transcribed, relative(1e-6, "seven digits")}
	dew := o
	dew.tolerance = absolute(1e-3, "three formulas of the saturation pressure lie within 0.001 K")
	out := []Check{
		o.plain("23 °C, 50 %", "vapour pressure", "Pa", 1405.462, pv),
		o.plain("23 °C, 50 %", "humidity ratio", "kg/kg", 0.00874824, func() float64 { return humidair.HumidityRatio(pv(), 101325) }),
		o.plain("23 °C, 50 %", "vapour density", "kg/m³", 0.01028284, func() float64 { return humidair.VapourDensity(pv(), room) }),
		dew.plain("23 °C, 50 %", "dew point", "K", 12.0285+zeroCelsius, func() float64 { return humidair.DewPoint(pv()) }),
	}
	heated := origin{airFamily, "the same air heated: computed from IAPWS R7-97 (independent code)", Transcribed,
		relative(1e-3, "covers the choice of the saturation formula")}
	for _, r := range []struct{ celsius, rh float64 }{{40, 0.1903278}, {50, 0.1137909}, {60, 0.0704640}, {70, 0.0450459}, {90, 0.0200259}, {110, 0.0098026}} {
		out = append(out, heated.plain(fmt.Sprintf("heated to %g °C", r.celsius), "relative humidity", "-", r.rh,
			func() float64 {
				return humidair.RelativeHumidity(humidair.VapourPressureAt(0.5, room), r.celsius+zeroCelsius)
			}))
	}
	return out
}

func moistAir() []Check {
	var out []Check
	for _, r := range []struct{ celsius, ratio, doubt float64 }{{5, 0.005425, 5e-3}, {25, 0.020173, 5e-3}, {50, 0.086863, 8e-3}, {85, 0.838105, 1.3e-2}} {
		o := origin{airFamily, "saturated air: ASHRAE Fundamentals (2017), ch. 1, Table 2, real gas", Published,
			relative(r.doubt, "the table is of the real gas: the enhancement factor, left out here, makes 0.4 % of the ratio at 25 °C, 0.6 % at 50 °C and 1.2 % at 85 °C")}
		out = append(out, o.plain(fmt.Sprintf("%g °C", r.celsius), "humidity ratio", "kg/kg", r.ratio,
			func() float64 {
				return humidair.HumidityRatio(humidair.SaturationPressure(r.celsius+zeroCelsius), 101325)
			}))
	}
	const pv = 1405.4619099200881
	density := origin{airFamily, "density: ideal gases with 287.042 and 461.524 J/(kg K), ASHRAE Fundamentals (2017), ch. 1 (independent code)",
		Transcribed, relative(1e-6, "eight digits")}
	for _, r := range []struct{ celsius, moist, dry float64 }{{23, 1.1857033, 1.1919538}, {70, 1.0233018, 1.0286963}, {110, 0.9164714, 0.9213027}} {
		name := fmt.Sprintf("%g °C", r.celsius)
		out = append(out,
			density.plain(name, "moist density", "kg/m³", r.moist, func() float64 { return humidair.Density(r.celsius+zeroCelsius, pv, 101325) }),
			density.plain(name, "dry density", "kg/m³", r.dry, func() float64 { return humidair.Density(r.celsius+zeroCelsius, 0, 101325) }))
	}
	volume := origin{airFamily, "dry air: ASHRAE Fundamentals (2017), ch. 1, Table 2", Published, relative(1e-3, "four digits, real gas")}
	latent := origin{airFamily, "heat of vaporisation: IAPWS SR1-86(1992), check table", Published, relative(1e-3, "the release allows its enthalpies 0.1 %")}
	coil := origin{airFamily, "saturated air of 2 °C, 10 m³/s, heated to 40 °C: ASHRAE Fundamentals, ch. 1, heating coil (from memory)",
		Memory, relative(1e-2, "about 490 kW is printed, from charts")}
	return append(out,
		volume.plain("25 °C", "volume", "m³/kg", 0.8443, func() float64 { return 1 / humidair.Density(25+zeroCelsius, 0, 101325) }),
		latent.plain("273.16 K", "latent heat", "J/kg", 2.5005e6, func() float64 { return humidair.LatentHeat(273.16) }),
		latent.plain("373.1243 K", "latent heat", "J/kg", 2675.7e3-419.05e3, func() float64 { return humidair.LatentHeat(373.1243) }),
		coil.plain("2 to 40 °C", "power", "W", 490e3, heatingCoil))
}

func heatingCoil() float64 {
	const cold, warm = 2 + zeroCelsius, 40 + zeroCelsius
	pv := humidair.SaturationPressure(cold)
	w := humidair.HumidityRatio(pv, 101325)
	flow := 10 * humidair.Density(cold, pv, 101325) / (1 + w)
	return flow * (humidair.Enthalpy(warm, w) - humidair.Enthalpy(cold, w))
}
