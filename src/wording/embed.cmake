# Writes OUTPUT, a C++ source that holds the wording files of FOLDER and its phrase books.
function(list_of name folder)
  file(GLOB files ${folder}/*.toml)
  set(entries "")
  foreach(path IN LISTS files)
    get_filename_component(language ${path} NAME_WE)
    file(READ ${path} text)
    string(APPEND entries "      {\"${language}\", R\"wording(${text})wording\"},\n")
  endforeach()
  set(source "${source}
const std::vector<EmbeddedFile>& ${name}() {
  static const std::vector<EmbeddedFile> files{
${entries}  };
  return files;
}
" PARENT_SCOPE)
endfunction()

set(source "#include \"embedded.hpp\"

namespace stakewright::wording {
")
list_of(embedded_files ${FOLDER})
list_of(embedded_phrase_books ${FOLDER}/report)
file(WRITE ${OUTPUT} "${source}
}  // namespace stakewright::wording
")
