package app

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// cloudFiles is the folder in which clouds are kept; "" keeps none. Everything in it
// can be made again: what is missing, damaged or of other trees is.
type cloudFiles string

// mostClouds bounds the folder: the oldest go. Outlines of trees are among them.
const mostClouds = 60

// cloudDigest is what a cloud depends on, in one word: the trees, the machine as it
// was taken in, the meter, and how clouds are made.
func cloudDigest(lib *tree.Library, in job.Intake) string {
	on := struct {
		Format, Seed, Machines    int
		Version, Trees            string
		System, Complaint         string
		Label, LabelText, Celsius any
		Meter                     any
	}{
		suspect.Format, cloudSeed, cloudMachines, version, lib.Digest,
		in.System, in.Complaint, in.Label, in.LabelText, in.Celsius, in.Meter,
	}
	text, err := json.Marshal(on) // maps are written in the order of their keys
	if err != nil {
		return "" // a label that is no number: such a cloud is not kept
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:16])
}

func (dir cloudFiles) path(digest string) string { return filepath.Join(string(dir), digest+".cloud") }

// read is the cloud that was kept; nil when there is none that is whole and of this
// system.
func (dir cloudFiles) read(digest string, sys *tree.System) *suspect.Cloud {
	if dir == "" || digest == "" {
		return nil
	}
	data, err := os.ReadFile(dir.path(digest))
	if err != nil || len(data) < sha256.Size {
		return nil
	}
	packed, sum := data[:len(data)-sha256.Size], data[len(data)-sha256.Size:]
	if is := sha256.Sum256(packed); !bytes.Equal(is[:], sum) {
		return nil
	}
	unpacked, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil
	}
	cloud, err := suspect.Read(unpacked, sys)
	if err != nil {
		return nil
	}
	return cloud
}

// write keeps a cloud as well as it can: without it, it is made again.
func (dir cloudFiles) write(digest string, cloud *suspect.Cloud) {
	if dir == "" || digest == "" || os.MkdirAll(string(dir), 0o700) != nil {
		return
	}
	err := writeWhole(dir.path(digest), func(w io.Writer) error {
		sum := sha256.New() // of all that stands before it
		z := gzip.NewWriter(io.MultiWriter(w, sum))
		if err := firstOf(cloud.Write(z), z.Close()); err != nil {
			return err
		}
		_, err := w.Write(sum.Sum(nil))
		return err
	})
	if err == nil {
		dir.thin()
	}
}

// thin takes the oldest files away.
func (dir cloudFiles) thin() {
	files, err := filepath.Glob(filepath.Join(string(dir), "*.*"))
	if err != nil || len(files) <= mostClouds {
		return
	}
	age := map[string]int64{}
	for _, f := range files {
		if info, err := os.Stat(f); err == nil {
			age[f] = info.ModTime().UnixNano()
		}
	}
	slices.SortFunc(files, func(a, b string) int { return cmp.Compare(age[a], age[b]) })
	for _, f := range files[:len(files)-mostClouds] {
		_ = os.Remove(f)
	}
}
