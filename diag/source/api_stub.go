package source

func Open(name string, data []byte) (*File, Issues) { return nil, nil }
func (f *File) At(line, column, length int) Place   { return Place{} }
func (f *File) Line(n int) string                   { return "" }
func (p Place) String() string                      { return "" }
func (is Issues) Sorted() Issues                    { return is }
func (is Issues) Error() string                     { return "" }
func (is Issues) Err() error                        { return nil }
func (i Issue) Render(f *File) string               { return "" }
func Clean(s string) string                         { return s }
func CleanLine(s string) string                     { return s }
func Nearest(name string, known []string) string    { return "" }

// At: line and column count from 1, within the piece of text.
func (o Origin) At(line, column, length int) Place        { return Place{} }
func Of(file *File, line, column int, text string) Origin { return Origin{} }
func Block(places []Place) Origin                         { return Origin{Lines: places} }
