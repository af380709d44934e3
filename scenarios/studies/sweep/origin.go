package sweep

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strings"

	"strandry/scenarios"
)

// Origin tells what the rows of a sweep were made from. Rows of equal origins belong
// together.
type Origin struct {
	Version string // of the program
	Text    string // hash of the scenario's text
	Axes    string // hash of the axes
	Model   string // hash of all that the scenario means, with its materials and settings
	Mode    string // "full", "quick" or "sketched"
	Rows    int
}

// Origin returns the origin of the rows that the sweep makes.
func (s *Sweep) Origin(version string) (Origin, error) {
	rows, err := s.Rows()
	if err != nil {
		return Origin{}, err
	}
	o := Origin{Version: version, Text: digest(s.Scenario.Document().Text()), Mode: "full", Rows: rows}
	if s.Quick {
		o.Mode = "quick"
	}
	if s.Sketch {
		o.Mode = "sketched"
	}
	var axes []byte
	for _, axis := range s.Scenario.Vary {
		for i := range axis.Len() {
			set := axis.Setting(i)
			axes = fmt.Appendf(axes, "%q=%q\n", set.Key, set.Value)
		}
	}
	o.Axes = digest(axes)
	model, err := s.meaning()
	if err != nil {
		return Origin{}, err
	}
	o.Model = digest(model)
	return o, nil
}

// meaning writes out the models of the scenario and of each name on its axes, for a
// name may stand for a material file that changes.
func (s *Sweep) meaning() ([]byte, error) {
	all := []*scenarios.Scenario{s.Scenario}
	for _, axis := range s.Scenario.Vary {
		for i := range axis.Names {
			// What the name alone makes of the scenario; a combination that is none has no rows.
			if named, err := s.Scenario.With(axis.Setting(i)); err == nil {
				all = append(all, named)
			}
		}
	}
	var out []byte
	for _, one := range all {
		model, err := json.Marshal(one.Design)
		if err != nil {
			return nil, fmt.Errorf("the scenario cannot be told from others: %w", err)
		}
		out = append(out, model...)
		out = fmt.Appendf(out, "\n%v\n", s.settings(one))
		for _, u := range one.Uncertain {
			out = fmt.Appendf(out, "%s %v %v\n", u.Key.Name, u.Value, u.Normal)
		}
	}
	return out, nil
}

func digest(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:12])
}

// originMark begins the line of an origin; its number is that of the format of a
// record.
const originMark = "strandry-sweep-1"

// String writes the origin on one line.
func (o Origin) String() string {
	return fmt.Sprintf("%s version=%s text=%s axes=%s model=%s mode=%s rows=%d", originMark, o.Version, o.Text, o.Axes, o.Model, o.Mode, o.Rows)
}

// ParseOrigin reads what [Origin.String] wrote.
func ParseOrigin(line string) (Origin, error) {
	var o Origin
	_, err := fmt.Sscanf(line, originMark+" version=%s text=%s axes=%s model=%s mode=%s rows=%d", &o.Version, &o.Text, &o.Axes, &o.Model, &o.Mode, &o.Rows)
	if err != nil || o.String() != strings.TrimSpace(line) {
		return Origin{}, fmt.Errorf("%.60q is no origin of a sweep", line)
	}
	return o, nil
}

// Differs says in words what sets an earlier origin apart from this one; "" for nothing.
func (o Origin) Differs(earlier Origin) string {
	switch {
	case o == earlier:
		return ""
	case o.Version != earlier.Version:
		return fmt.Sprintf("it was made by version %s, this is %s", earlier.Version, o.Version)
	case o.Mode != earlier.Mode:
		return fmt.Sprintf("it was a %s sweep, this is a %s one", earlier.Mode, o.Mode)
	case o.Text != earlier.Text:
		return "the text of the scenario is another"
	case o.Axes != earlier.Axes || o.Rows != earlier.Rows:
		return "the axes are others"
	}
	return "a material that the scenario names is another"
}
