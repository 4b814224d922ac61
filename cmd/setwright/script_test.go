package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets this test binary be the setwright command of the scripts.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"setwright": main})
}

// TestScripts runs every script of testdata/script against the real command,
// each in a folder of its own that holds the script's files. $SAMPLES is the
// samples folder, $PICTURES has JPEGs as other programs write them.
// SETWRIGHT_UPDATE=1 renews the expected outputs.
func TestScripts(t *testing.T) {
	root, err := filepath.Abs(moduleRoot)
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(moduleRoot, "testdata", "script"),
		UpdateScripts:       os.Getenv("SETWRIGHT_UPDATE") == "1",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("SAMPLES", filepath.Join(root, "samples"))
			env.Setenv("PICTURES", filepath.Join(root, "layout", "picture", "testdata"))
			return nil
		},
		Condition: func(cond string) (bool, error) {
			return cond == "root" && os.Geteuid() == 0, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":  exits,
			"bytes":  writeBytes,
			"append": appendBytes,
			"crlf":   toCRLF,
			"lf":     toLF,
			"sparse": sparse,
			"nested": nested,
			"image":  writeImage,
			"bomb":   bomb,
			"cut":    cut,
			"fifo":   fifo,
			"isPDF":  isPDF,
			"forge":  forge,
		},
	})
}

// exits STATUS setwright ARGS... runs the command and wants that exit status.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	status := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		exit, ok := err.(interface{ ExitCode() int })
		if !ok {
			ts.Fatalf("%v", err)
		}
		status = exit.ExitCode()
	}
	if status != want {
		ts.Fatalf("exit status %d, want %d", status, want)
	}
}

// bytes FILE QUOTED writes what the Go string literal holds.
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}

// append FILE QUOTED puts what the Go string literal holds at the end of a file.
func appendBytes(ts *testscript.TestScript, neg bool, args []string) {
	text, err := strconv.Unquote(`"` + args[1] + `"`)
	ts.Check(err)
	data, err := os.ReadFile(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), append(data, text...), 0o666))
}

// crlf FILE... gives files a byte order mark and the line ends of Windows.
func toCRLF(ts *testscript.TestScript, neg bool, args []string) {
	for _, name := range args {
		text, err := os.ReadFile(ts.MkAbs(name))
		ts.Check(err)
		text = append([]byte("\ufeff"), bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))...)
		ts.Check(os.WriteFile(ts.MkAbs(name), text, 0o666))
	}
}

// lf FILE... takes the CR from the end of each line, which must have had one.
func toLF(ts *testscript.TestScript, neg bool, args []string) {
	for _, name := range args {
		text, err := os.ReadFile(ts.MkAbs(name))
		ts.Check(err)
		plain := bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
		if bytes.Count(text, []byte("\n")) != len(text)-len(plain) || len(text) == len(plain) {
			ts.Fatalf("%s: not every line ends in CR LF", name)
		}
		ts.Check(os.WriteFile(ts.MkAbs(name), plain, 0o666))
	}
}

// sparse FILE MEGABYTES makes a large file that takes no room on the disk.
func sparse(ts *testscript.TestScript, neg bool, args []string) {
	megabytes, err := strconv.Atoi(args[1])
	ts.Check(err)
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(f.Truncate(int64(megabytes) << 20))
	ts.Check(f.Close())
}

// nested FILE DEPTH writes a YAML plan nested that deep.
func nested(ts *testscript.TestScript, neg bool, args []string) {
	depth, err := strconv.Atoi(args[1])
	ts.Check(err)
	text := "plan: " + string(bytes.Repeat([]byte("["), depth)) + "\n"
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}

// image FILE WIDTH HEIGHT writes a picture, as PNG or JPEG by its name. PNGs
// are half transparent.
func writeImage(ts *testscript.TestScript, neg bool, args []string) {
	width, err := strconv.Atoi(args[1])
	ts.Check(err)
	height, err := strconv.Atoi(args[2])
	ts.Check(err)
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for i := range width * height {
		img.SetNRGBA(i%width, i/width, color.NRGBA{uint8(i), uint8(i >> 8), 90, 128})
	}
	var out bytes.Buffer
	if filepath.Ext(args[0]) == ".png" {
		err = png.Encode(&out, img)
	} else {
		err = jpeg.Encode(&out, img, nil)
	}
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out.Bytes(), 0o666))
}

// bomb FILE writes the head of a PNG that would unfold to 3,600 megapixels.
func bomb(ts *testscript.TestScript, neg bool, args []string) {
	const side = 60_000
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), side)
	head = binary.BigEndian.AppendUint32(head, side)
	head = append(head, 8, 2, 0, 0, 0) // eight bits, three colours
	data := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	data = binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(head))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o666))
}

// cut FILE BYTES keeps only the first bytes of a file.
func cut(ts *testscript.TestScript, neg bool, args []string) {
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), size))
}

// fifo FILE makes a named pipe that nobody writes to.
func fifo(ts *testscript.TestScript, neg bool, args []string) {
	if runtime.GOOS == "windows" {
		ts.Fatalf("no named pipes here: guard with [unix]")
	}
	ts.Check(ts.Exec("mkfifo", args[0]))
}

// isPDF FILE... wants files that are PDF from head to tail.
func isPDF(ts *testscript.TestScript, neg bool, args []string) {
	for _, name := range args {
		if whole := wholePDF([]byte(ts.ReadFile(name))); whole == neg {
			ts.Fatalf("%s: a whole PDF: %v", name, whole)
		}
	}
}

// wholePDF looks at a file's head and tail.
func wholePDF(data []byte) bool {
	return bytes.HasPrefix(data, []byte("%PDF-1.")) && bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF"))
}

// forge FILE... changes the plan that is attached to a pack, as an editor of PDFs
// would: the new one is appended, with a table that tells of it (ISO 32000-1,
// 7.5.6). All else stays as it was.
func forge(ts *testscript.TestScript, neg bool, args []string) {
	for _, name := range args {
		path := ts.MkAbs(name)
		data, err := os.ReadFile(path)
		ts.Check(err)
		held := regexp.MustCompile(`(\d+) 0 obj\n?<</Type/EmbeddedFile[^\n]*?/Length (\d+)[^\n]*>>\s*stream\n`)
		for _, at := range held.FindAllSubmatchIndex(data, -1) {
			number := string(data[at[2]:at[3]])
			unfolded, err := zlib.NewReader(bytes.NewReader(data[at[1]:]))
			ts.Check(err)
			text, err := io.ReadAll(unfolded)
			ts.Check(err)
			if !bytes.HasPrefix(text, []byte("plan: 1")) {
				continue
			}
			changed := bytes.Replace(text, []byte("count: 4"), []byte("count: 5"), 1)
			trailer := regexp.MustCompile(`/Size \d+|/Root \d+ 0 R`).FindAll(data[bytes.LastIndex(data, []byte("trailer")):], -1)
			before := regexp.MustCompile(`startxref\s+(\d+)\s+%%EOF\s*$`).FindSubmatch(data)
			place := len(data)
			data = fmt.Appendf(data, "%s 0 obj\n<</Type/EmbeddedFile/Length %d>>stream\n%s\nendstream\nendobj\n", number, len(changed), changed)
			table := len(data)
			data = fmt.Appendf(data, "xref\n%s 1\n%010d 00000 n \ntrailer\n<<%s/Prev %s>>\nstartxref\n%d\n%%%%EOF\n",
				number, place, bytes.Join(trailer, nil), before[1], table)
			ts.Check(os.WriteFile(path, data, 0o666))
			return
		}
		ts.Fatalf("%s: no plan is attached", name)
	}
}
