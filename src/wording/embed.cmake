# Writes OUTPUT, a C++ source that holds the wording files of FOLDER.
file(GLOB wordings ${FOLDER}/*.toml)
set(entries "")
foreach(path IN LISTS wordings)
  get_filename_component(language ${path} NAME_WE)
  file(READ ${path} text)
  string(APPEND entries "      {\"${language}\", R\"wording(${text})wording\"},\n")
endforeach()
file(WRITE ${OUTPUT} "#include \"embedded.hpp\"

namespace stakewright::wording {

const std::vector<EmbeddedFile>& embedded_files() {
  static const std::vector<EmbeddedFile> files{
${entries}  };
  return files;
}

}  // namespace stakewright::wording
")
