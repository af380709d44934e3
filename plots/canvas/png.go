package canvas

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
)

// encodePNG writes an opaque picture as PNG (ISO/IEC 15948), 8 bits for each of red, green and blue. A row like the one before is told by its filter, all
// others are left as they are: drawings of few colours come out no greater than by the filters for photographs, in a quarter of the time.
func encodePNG(dots *image.RGBA) ([]byte, error) {
	const none, up = 0, 2
	width, height := dots.Rect.Dx(), dots.Rect.Dy()
	var data bytes.Buffer
	z, err := zlib.NewWriterLevel(&data, zlib.BestSpeed)
	if err != nil {
		return nil, err
	}
	row, again := make([]byte, 1+3*width), make([]byte, 1+3*width)
	row[0], again[0] = none, up
	var before []byte
	for y := range height {
		pixels := dots.Pix[y*dots.Stride:][:4*width]
		line := again
		if !bytes.Equal(pixels, before) {
			line, before = row, pixels
			for from, to := 0, 1; from < len(pixels); from, to = from+4, to+3 {
				row[to], row[to+1], row[to+2] = pixels[from], pixels[from+1], pixels[from+2]
			}
		}
		if _, err := z.Write(line); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	header := binary.BigEndian.AppendUint32(nil, uint32(width))
	header = binary.BigEndian.AppendUint32(header, uint32(height))
	header = append(header, 8, 2, 0, 0, 0) // 8 bits, colours, deflated, filtered, whole
	out := []byte("\x89PNG\r\n\x1a\n")
	for _, chunk := range [...]struct {
		name string
		data []byte
	}{{"IHDR", header}, {"IDAT", data.Bytes()}, {"IEND", nil}} {
		out = binary.BigEndian.AppendUint32(out, uint32(len(chunk.data)))
		from := len(out)
		out = append(append(out, chunk.name...), chunk.data...)
		out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[from:]))
	}
	return out, nil
}
