//! Reading and writing: the rim of the program.

use super::Stop;
use crate::cli::Output;
use byrnie::notation::read;
use byrnie::pattern::{Bases, Found};
use byrnie::text::{MAX_BYTES, Source, short_name};
use byrnie::{Library, Weave};
use serde::Serialize;
use std::fs::File;
use std::io::{IsTerminal, Read, Write};
use std::path::{Path, PathBuf};

/// Columns a report is drawn in.
pub fn width() -> usize {
    100
}

/// Whether reports on standard output are coloured.
pub fn colour_on_stdout() -> bool {
    std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}

/// Whether reports on standard error are coloured.
pub fn colour_on_stderr() -> bool {
    std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}

/// Prints to standard output. A reader that has gone away (`| head`) is no fault.
///
/// # Errors
/// Exit code 2 when the output cannot be written, as on a full disk.
pub fn print(text: &str) -> Result<(), Stop> {
    print_bytes(text.as_bytes())
}

fn print_bytes(bytes: &[u8]) -> Result<(), Stop> {
    let mut out = std::io::stdout().lock();
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(e) if e.kind() != std::io::ErrorKind::BrokenPipe => Err(Stop::Print(e)),
        _ => Ok(()),
    }
}

/// What `--json` prints.
///
/// # Errors
/// Exit code 2 when it cannot be put into JSON.
pub fn json(value: &impl Serialize) -> Result<String, Stop> {
    Ok(format!("{}\n", serde_json::to_string_pretty(value)?))
}

/// Whether a path is that of standard input or output.
pub fn is_standard(path: &Path) -> bool {
    path == Path::new("-")
}

/// Prints to standard error; there is nowhere left to say that it cannot be written.
pub fn complain(text: &str) {
    let _ = writeln!(std::io::stderr(), "{}", text.trim_end());
}

/// The text of a file, or of standard input for `-`.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn source(file: &Path) -> Result<Source, Stop> {
    let source = text(file)?;
    let (tree, faults) = read(0, source.text());
    if tree.statements.is_empty() && faults.is_empty() {
        return Err(Stop::NoWeave { name: source.name().to_owned() });
    }
    Ok(source)
}

/// The text of a file that need not be a weave.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn text(file: &Path) -> Result<Source, Stop> {
    let (name, bytes) = bytes(file)?;
    Source::from_bytes(name.clone(), bytes).map_err(|why| Stop::Source { name, why })
}

/// What messages call a file, and what is in it: at most one byte more than is ever read.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn bytes(file: &Path) -> Result<(String, Vec<u8>), Stop> {
    let name = if is_standard(file) { "standard input".to_owned() } else { file.display().to_string() };
    match bytes_of(file) {
        Ok(bytes) => Ok((name, bytes)),
        Err(why) => Err(Stop::Read { name, why }),
    }
}

fn bytes_of(file: &Path) -> std::io::Result<Vec<u8>> {
    // One byte more than is read shows that there is too much; a file of any length costs no more.
    let most = MAX_BYTES as u64 + 1;
    let mut bytes = Vec::new();
    if is_standard(file) {
        std::io::stdin().lock().take(most).read_to_end(&mut bytes)?;
        return Ok(bytes);
    }
    let open = File::open(file)?;
    if open.metadata()?.is_dir() {
        return Err(std::io::ErrorKind::IsADirectory.into());
    }
    open.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The weave in a file, with its bases from the library or beside it.
///
/// # Errors
/// Exit code 2 where the file cannot be read.
pub fn weave(file: &Path) -> Result<Weave, Stop> {
    Ok(compile(file, source(file)?))
}

/// A text compiled as if it stood in `file`.
pub fn compile(file: &Path, source: Source) -> Weave {
    let folder = file.parent().filter(|_| !is_standard(file)).map_or_else(PathBuf::new, Path::to_path_buf);
    Weave::compile(source, &Beside { folder })
}

/// Bases from the built-in library, or else a file in the same folder.
struct Beside {
    folder: PathBuf,
}

impl Bases for Beside {
    fn find(&self, name: &str) -> Found {
        let found = Library.find(name);
        if matches!(found, Found::Text(_)) {
            return found;
        }
        // A base is named, not reached for: no name leads out of the folder.
        if name.contains(['/', '\\', '\0']) {
            return Found::Unreadable("a base lies in the same folder; write its name alone".to_owned());
        }
        for candidate in [name.to_owned(), format!("{name}.weave"), format!("{}.weave", short_name(name))] {
            let path = self.folder.join(&candidate);
            if path.extension().is_some_and(|e| e == "weave") && path.exists() {
                return match source(&path) {
                    Ok(source) => Found::Text(source),
                    Err(stop) => Found::Unreadable(stop.to_string()),
                };
            }
        }
        found
    }
}

/// Makes a folder, and those it lies in, where there is none.
///
/// # Errors
/// Exit code 2 with the folder's name.
pub fn folder(folder: &Path) -> Result<(), Stop> {
    std::fs::create_dir_all(folder).map_err(|why| Stop::Folder { path: folder.to_path_buf(), why })
}

/// Puts something where it is wanted.
///
/// # Errors
/// Exit code 2 where it cannot be written.
pub fn put(output: &Output, bytes: &[u8]) -> Result<(), Stop> {
    match output {
        Output::Standard => print_bytes(bytes),
        Output::File(path) => write(path, bytes),
    }
}

/// Writes a file whole or not at all: to a new file in the same folder, which then takes the old one's
/// place. Permissions of an old file are kept, and a link is followed.
///
/// # Errors
/// Exit code 2 with the file's name.
pub fn write(file: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Stop> {
    // A device or a pipe would be replaced by a file.
    if std::fs::metadata(file).is_ok_and(|old| !old.is_file()) {
        return Err(Stop::NoPlainFile { path: file.to_path_buf() });
    }
    replace(file, bytes.as_ref()).map_err(|why| Stop::Write { path: file.to_path_buf(), why })
}

fn replace(file: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let target = std::fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf());
    let folder = target.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut new = tempfile::Builder::new();
    new.prefix(".byrnie-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        new.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut new = new.tempfile_in(folder)?;
    new.write_all(bytes)?;
    if let Ok(old) = std::fs::metadata(&target) {
        new.as_file().set_permissions(old.permissions())?;
    }
    new.as_file().sync_all()?;
    new.persist(&target).map_err(|e| e.error)?;
    Ok(())
}
