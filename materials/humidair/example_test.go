package humidair_test

import (
	"fmt"

	"strandry/materials/humidair"
)

// Room air let into a warm chamber: the vapour pressure stays, the relative
// humidity falls.
func Example() {
	room, chamber := 23+273.15, 70+273.15 // [K]
	pv := humidair.VapourPressureAt(0.50, room)
	fmt.Printf("vapour pressure %.0f Pa, dew point %.1f °C\n", pv, humidair.DewPoint(pv)-273.15)
	fmt.Printf("at 70 °C: %.1f %%\n", 100*humidair.RelativeHumidity(pv, chamber))
	// Output:
	// vapour pressure 1405 Pa, dew point 12.0 °C
	// at 70 °C: 4.5 %
}

func ExampleRange_Holds() {
	r := humidair.VapourDiffusivityRange()
	fmt.Println(r.Holds(343.15), r.Holds(253.15))
	// Output: true false
}

func ExampleGreenspanSaltHumidity() {
	rh, err := humidair.GreenspanSaltHumidity(humidair.SodiumChloride, 298.15)
	fmt.Printf("%.3f %v\n", rh, err)
	// Output: 0.753 <nil>
}
