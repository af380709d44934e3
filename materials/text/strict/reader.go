package strict

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"

	"strandry/materials/text/nearest"
)

// MaxSize is the longest text read [bytes]; a scenario or a material takes a few
// thousand.
const MaxSize = 1 << 18

// Reader collects the faults of one file.
type Reader struct {
	file   string
	lines  map[string]int
	tables []*Table
	faults Faults
}

// Text is a TOML text that was decoded. It is never changed, and safe to share.
type Text struct {
	file   string
	values map[string]any
	lines  map[string]int
}

// Decode reads a TOML text; file is its name in messages. A text that is not TOML
// gives Faults with the line.
func Decode(file string, text []byte) (*Text, error) {
	if len(text) > MaxSize {
		return nil, Faults{{File: file, Problem: "the file is too long",
			Given: fmt.Sprint(len(text)), Allowed: fmt.Sprintf("up to %d bytes", MaxSize)}}
	}
	if at, deep := tooDeep(string(text)); deep {
		return nil, Faults{{File: file, Line: 1 + strings.Count(string(text[:at]), "\n"),
			Problem: "tables, arrays or dotted keys nested too deep", Allowed: fmt.Sprintf("up to %d levels", maxDepth)}}
	}
	var values map[string]any
	if _, err := toml.Decode(string(text), &values); err != nil {
		fault := Fault{File: file, Problem: "not valid TOML: " + shortened(err.Error())}
		var detail toml.ParseError
		if errors.As(err, &detail) {
			fault.Line = detail.Position.Line
			fault.Problem = "not valid TOML" + shortened(strings.TrimPrefix(err.Error(), fmt.Sprintf("toml: line %d", fault.Line)))
		}
		return nil, Faults{fault}
	}
	return &Text{file: file, values: values, lines: positions(string(text))}, nil
}

// Table is the table of the whole text, for one who has not asked for anything yet, and what collects its faults.
func (t *Text) Table() (*Table, *Reader) {
	r := &Reader{file: t.file, lines: t.lines}
	return r.table("", t.values), r
}

// Parse is Decode and the table of what it gives.
func Parse(file string, text []byte) (*Table, *Reader, error) {
	decoded, err := Decode(file, text)
	if err != nil {
		return nil, nil, err
	}
	root, r := decoded.Table()
	return root, r, nil
}

func (r *Reader) table(path string, values map[string]any) *Table {
	t := &Table{path: path, values: values, known: map[string]bool{}, children: map[string][]*Table{}, reader: r}
	r.tables = append(r.tables, t)
	return t
}

// line gives the line of a path, or of the nearest table around it.
func (r *Reader) line(path string) int {
	for {
		if line, ok := r.lines[path]; ok {
			return line
		}
		cut := strings.LastIndexAny(path, ".[")
		if cut < 0 {
			return 0
		}
		path = path[:cut]
	}
}

// Finish reports the keys nobody asked for and returns every fault of the file
// as [Faults] sorted by line, or nil. Call it once, after the last question.
func (r *Reader) Finish() error {
	for _, t := range r.tables {
		for _, key := range t.Keys() {
			if !t.known[key] {
				t.Report(key, Fault{Problem: "unknown key", Allowed: strings.Join(t.asked, ", "), Nearest: nearest.Name(key, t.asked)})
			}
		}
	}
	return r.SoFar()
}

// SoFar returns the faults recorded until now, or nil, without judging the keys that
// nobody asked for; for a caller that gives up early.
func (r *Reader) SoFar() error { return r.faults.sorted().Err() }

// shown writes a value for a message, as it stands in the file.
func shown(value any) string {
	switch v := value.(type) {
	case string:
		const ends = 36 // the name of a file is at the end of its path
		if runes := []rune(v); len(runes) > 2*ends {
			v = string(runes[:ends]) + "…" + string(runes[len(runes)-ends:])
		}
		return strconv.Quote(v)
	case float64:
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return strings.ToLower(strings.TrimPrefix(fmt.Sprint(v), "+"))
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	case int64, bool:
		return fmt.Sprint(v)
	case map[string]any:
		return "{…}"
	case []any, []map[string]any:
		return "[…]"
	case nil:
		return ""
	}
	return "a date"
}

// kind names the kind of a value for a message.
func kind(value any) string {
	switch value.(type) {
	case string:
		return "a text"
	case float64:
		return "a number"
	case int64:
		return "a whole number"
	case bool:
		return "a truth value"
	case map[string]any:
		return "a table"
	case []any, []map[string]any:
		return "an array"
	}
	return "a date"
}

// asTables returns an array as its tables; false when an element is none.
func asTables(value any) ([]map[string]any, bool) {
	switch v := value.(type) {
	case []map[string]any:
		return v, true
	case []any:
		out := make([]map[string]any, len(v))
		for i, element := range v {
			table, ok := element.(map[string]any)
			if !ok {
				return nil, false
			}
			out[i] = table
		}
		return out, true
	}
	return nil, false
}
