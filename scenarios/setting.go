package scenarios

import (
	"strconv"
	"strings"

	"strandry/materials/text/strict"
)

// Setting lays another value over one key of a document: Key is its path by
// names ("zone.drum.length", "feed.speed", "strand.storage.1.duration",
// "strand.properties.diffusivity.beta"), Value is written as in the file,
// without quotes ("12 m", "0.9"). It acts as if the file said so: a setting that
// contradicts another key of the file is a fault.
type Setting struct{ Key, Value string }

// literal is how a value stands in TOML.
type literal int

const (
	text literal = iota // between quotes
	bare                // a number or a truth value
)

// overlay is a setting during one reading. It is read as a file of one line, so
// that it meets the same checks in the same words.
type overlay struct {
	Setting
	table  *strict.Table
	reader *strict.Reader
	used   bool
}

// settingFile stands for a file's name in the faults of settings.
const settingFile = "setting"

// as gives the table that holds the setting, and its key there.
func (o *overlay) as(kind literal) (*strict.Table, string) {
	o.used = true
	key := o.Key[strings.LastIndexByte(o.Key, '.')+1:]
	if o.table == nil {
		o.table, o.reader, _ = strict.Parse(settingFile, []byte(strict.Quoted(key)+" = "+o.written(kind)))
	}
	return o.table, key
}

// written is the value as TOML; what is no number stays a text, which the
// reading then refuses.
func (o *overlay) written(kind literal) string {
	value := strings.TrimSpace(o.Value)
	if kind == bare {
		if value == "true" || value == "false" {
			return value
		}
		if x, err := strconv.ParseFloat(value, 64); err == nil {
			return strings.ToLower(strconv.FormatFloat(x, 'g', -1, 64))
		}
	}
	return strict.Quoted(value)
}

// faults lists what is wrong with the setting, under its full key.
func (o *overlay) faults() strict.Faults {
	if o.reader == nil {
		return nil
	}
	found, _ := o.reader.Finish().(strict.Faults)
	for i := range found {
		found[i].Line, found[i].Key = 0, o.Key
	}
	return found
}
