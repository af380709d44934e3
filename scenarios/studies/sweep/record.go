package sweep

import (
	"encoding/hex"
	"fmt"
	"hash/crc32"
	"strconv"
	"strings"

	"strandry/diffusion"
)

// A line of a partial file is its text, a space and the checksum of the text, which goes on from that of
// the origin: a line that was torn, or belongs to another sweep, has no sum or a wrong one.
func sealed(origin uint32, text string) string {
	return fmt.Sprintf("%s %08x\n", text, checksum(origin, text))
}

// unsealed returns the text of a line without its end; false for a torn one or a stranger.
func unsealed(origin uint32, line string) (string, bool) {
	cut := strings.LastIndexByte(line, ' ')
	if cut < 0 || line[cut+1:] != fmt.Sprintf("%08x", checksum(origin, line[:cut])) {
		return "", false
	}
	return line[:cut], true
}

func checksum(before uint32, text string) uint32 {
	return crc32.Update(before, crc32.IEEETable, []byte(text))
}

// numbers lists what a record holds as numbers.
func (row *Row) numbers() [15]*float64 {
	return [...]*float64{&row.Mean, &row.Centre, &row.Skin, &row.Low, &row.High, &row.Limit, &row.Removed,
		&row.Excess.Yield, &row.Excess.Bear, &row.Settings.Resolution, &row.Settings.Tolerance, &row.Probability, &row.Density,
		&row.Ratio.Low, &row.Ratio.High}
}

// record writes a row on one line, its numbers in hexadecimal, which loses no bit.
func record(index int, row Row) string {
	var b strings.Builder
	b.WriteString(strconv.Itoa(index))
	for _, x := range row.numbers() {
		b.WriteByte(' ')
		b.WriteString(strconv.FormatFloat(*x, 'x', -1, 64))
	}
	fmt.Fprintf(&b, " %d %d x%s", row.Verdict, row.Settings.Heat, hex.EncodeToString([]byte(row.Failed)))
	return b.String()
}

// parseRecord reads what record wrote, of a sweep of so many rows.
func parseRecord(text string, rows int) (index int, row Row, ok bool) {
	fields := strings.Split(text, " ")
	numbers := row.numbers()
	if len(fields) != 1+len(numbers)+3 {
		return 0, Row{}, false
	}
	index, err := strconv.Atoi(fields[0])
	ok = err == nil && index >= 0 && index < rows
	for i, x := range numbers {
		*x, err = strconv.ParseFloat(fields[1+i], 64)
		ok = ok && err == nil
	}
	rest := fields[1+len(numbers):]
	var words [2]int
	for i, last := range [...]int{int(diffusion.TooHot), int(diffusion.Resolved)} {
		words[i], err = strconv.Atoi(rest[i])
		ok = ok && err == nil && words[i] >= 0 && words[i] <= last
	}
	row.Verdict, row.Settings.Heat = diffusion.Verdict(words[0]), diffusion.Heat(words[1])
	failed, marked := strings.CutPrefix(rest[2], "x")
	reason, err := hex.DecodeString(failed)
	row.Failed = string(reason)
	return index, row, ok && marked && err == nil && (row.Failed != "" || row.finite())
}
