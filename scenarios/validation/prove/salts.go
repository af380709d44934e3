package prove

import (
	"strandry/materials/humidair"
)

// salts are fixed points of humidity.
func salts() []Check {
	const family = "salts"
	o := origin{family, "Greenspan, J. Res. NBS 81A (1977) 89, at 25 °C", Published, absolute(1.1e-4, "two decimals of a percentage are printed, and the paper's fits give them to 0.01")}
	var out []Check
	for _, r := range []struct {
		salt humidair.Salt
		rh   float64
	}{
		{humidair.LithiumChloride, 0.1130}, {humidair.MagnesiumChloride, 0.3278}, {humidair.MagnesiumNitrate, 0.5289},
		{humidair.SodiumChloride, 0.7529}, {humidair.PotassiumChloride, 0.8434}, {humidair.PotassiumSulfate, 0.9730},
	} {
		out = append(out, o.check(r.salt.String(), "relative humidity", "-", r.rh, func() (float64, error) {
			return humidair.GreenspanSaltHumidity(r.salt, 25+zeroCelsius)
		}))
	}
	crc := origin{family, "CRC Handbook of Chemistry and Physics, constant humidity solutions (Wexler), at 25 °C", Published, absolute(0.02, "2 % RH stated there")}
	dew := origin{family, "air of 25 °C and 29 %, as over calcium chloride: computed from IAPWS R7-97 (independent code)", Computed, absolute(1e-3, "five digits")}
	return append(out,
		crc.check("CaCl2 hexahydrate", "relative humidity", "-", 0.29, func() (float64, error) {
			return humidair.CalciumChlorideHumidity(25 + zeroCelsius)
		}),
		dew.plain("25 °C, 29 %", "dew point", "K", 5.7489+zeroCelsius, func() float64 {
			return humidair.DewPoint(humidair.VapourPressureAt(0.29, 25+zeroCelsius))
		}))
}
