package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/keeps"
)

func keepsCommand() *cobra.Command {
	var asJSON bool
	var material, humidity, temperature string
	c := onScenario(&cobra.Command{
		Use:   "keeps [FILE]",
		Short: "How long does a dry strand stay dry?",
		Long: `keeps tells how long a dry strand stays dry.

    strandry keeps --demo clear-cover
    strandry keeps my-dryer.toml --material petg --humidity "40 %"

For every material of the library, or one: how long it may lie in the air of the
[room], or in that of --temperature and --humidity, before its mean passes the
limit; the humidity in which it may lie for ever; what one opening of the
[store] costs ([opening]: the humidity jumps to the room's and falls back with a
time constant); and how many openings a day, or how slow a return, it bears.`,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		all, err := chosen(c, s, material)
		if err != nil {
			return err
		}
		air, err := storageAir(s, temperature, humidity)
		if err != nil {
			return misuse{err}
		}
		return answer(c, asJSON, func(ctx context.Context) (table.Page, error) {
			answer, err := keeps.Find(ctx, s, air, all)
			return &table.Keeps{Title: s.Title, File: s.File, Version: version, Answer: answer, Assumed: slices.Concat(s.Taken, s.Store.Assumed, s.Opening.Assumed)}, err
		})
	})
	c.Flags().StringVar(&material, "material", "", "one material, by its `NAME` or its file, in place of all")
	c.Flags().StringVar(&humidity, "humidity", "", "relative humidity of the air, such as \"40 %\"; else the room's: `RH`")
	c.Flags().StringVar(&temperature, "temperature", "", "temperature of the air, such as \"25 °C\"; else the room's: `T`")
	jsonFlag(c, &asJSON)
	return c
}

// storageAir is the air of the room with what the flags say of it. A temperature alone keeps the
// room's vapour, as a zone does, but no more than saturates it.
func storageAir(s *scenarios.Scenario, temperature, humidity string) (keeps.Air, error) {
	air := keeps.Air{Temperature: s.Room.Temperature, VapourPressure: s.Room.VapourPressure}
	if temperature != "" {
		t, err := quantity.Temperature().Parse(temperature)
		if err != nil {
			return air, fmt.Errorf("--temperature %w", err)
		}
		if !scenarios.AirTemperatures().Holds(t) {
			return air, fmt.Errorf("--temperature %q: allowed -40 °C to 300 °C", temperature)
		}
		air.Temperature = t
	}
	most := humidair.SaturationPressure(air.Temperature)
	if humidity != "" {
		h, err := quantity.Humidity().Parse(humidity)
		if err != nil {
			return air, fmt.Errorf("--humidity %w", err)
		}
		if !scenarios.Humidities().Holds(h) {
			return air, fmt.Errorf("--humidity %q: allowed 0 %% to 100 %%", humidity)
		}
		air.VapourPressure = h * most
	}
	air.VapourPressure = min(air.VapourPressure, most)
	if air.VapourPressure > 0.99*s.Room.Pressure {
		return air, fmt.Errorf("--humidity %q: so hot and humid that no air is left", humidity)
	}
	return air, nil
}
