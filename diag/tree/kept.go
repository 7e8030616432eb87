package tree

import "benchlead/diag/source"

// Kept loads libraries that differ in a file or two, over and over. What it has
// read of a file it keeps, and reads only texts that are new. It is for one
// goroutine.
type Kept struct{ files map[source.File]*builder }

// NewKept has read nothing yet.
func NewKept() *Kept { return &Kept{files: map[source.File]*builder{}} }

// Keep reads files that many libraries will have in common.
func (k *Kept) Keep(files []source.File) {
	for i := range files {
		b := &builder{}
		b.readFile(&files[i])
		k.files[files[i]] = b
	}
}

// Load is Load of this package, and comes to the same.
func (k *Kept) Load(files []source.File) (*Library, source.Issues) {
	return load(files, func(b *builder, file *source.File) {
		if had := k.files[*file]; had != nil {
			b.take(had)
			return
		}
		b.readFile(file)
	})
}

// take adds what was read of a file. Shapes are only read from, so several
// libraries may be built of them.
func (b *builder) take(from *builder) {
	b.systemShapes = append(b.systemShapes, from.systemShapes...)
	b.sharedShapes = append(b.sharedShapes, from.sharedShapes...)
	b.treeShapes = append(b.treeShapes, from.treeShapes...)
	b.stockShapes = append(b.stockShapes, from.stockShapes...)
	b.circuitShapes = append(b.circuitShapes, from.circuitShapes...)
	b.fragmentShapes = append(b.fragmentShapes, from.fragmentShapes...)
	b.issues = append(b.issues, from.issues...)
}
