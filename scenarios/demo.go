package scenarios

import (
	"embed"
	"fmt"
	"strings"

	"strandry/materials/text/nearest"
)

//go:embed demos/*.toml
var demos embed.FS // read only

//go:embed template.toml
var template string // read only

// Demos returns the names of the demonstration scenarios. The first one is what
// stands in where no scenario is named.
func Demos() []string {
	return []string{"winch-drum", "lamp-shade", "opened-yesterday", "clear-cover"}
}

// DemoText returns the text of a demonstration scenario.
func DemoText(name string) ([]byte, error) {
	text, err := demos.ReadFile("demos/" + name + ".toml")
	if err != nil {
		problem := fmt.Sprintf("no demonstration is called %q; allowed: %s", name, strings.Join(Demos(), ", "))
		if near := nearest.Name(name, Demos()); near != "" {
			problem += fmt.Sprintf("; did you mean %q?", near)
		}
		return nil, fmt.Errorf("%s", problem)
	}
	return text, nil
}

// Demo returns a demonstration scenario.
func Demo(name string) (*Scenario, error) {
	text, err := DemoText(name)
	if err != nil {
		return nil, err
	}
	return Read(name+".toml", text)
}

// Template returns a scenario with every key of the format, explained, to start a
// design from. It reads as it stands.
func Template() []byte { return []byte(template) }
