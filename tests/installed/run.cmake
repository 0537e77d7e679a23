# cmake -DBUILD=… -DCONSUMER=… -DSCRATCH=… -P run.cmake: install, build the consumer, run it.
file(REMOVE_RECURSE ${SCRATCH})
function(step)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE status OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "${ARGN}\n${out}")
  endif()
endfunction()
step(${CMAKE_COMMAND} --install ${BUILD} --prefix ${SCRATCH}/prefix)
step(${CMAKE_COMMAND} -S ${CONSUMER} -B ${SCRATCH}/build -G Ninja
     -DCMAKE_PREFIX_PATH=${SCRATCH}/prefix -DCMAKE_BUILD_TYPE=Release)
step(${CMAKE_COMMAND} --build ${SCRATCH}/build)
step(${SCRATCH}/build/consumer)
step(${SCRATCH}/prefix/bin/stakewright --version)
