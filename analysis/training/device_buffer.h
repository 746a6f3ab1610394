// Memory on the graphics card that grows when asked for more and is reused from view to view.
#pragma once

#include <cuda_runtime.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace loafmark::training {

inline void require(cudaError_t status, const char* what) {
    if (status != cudaSuccess)
        throw std::runtime_error(std::string(what) + ": " + cudaGetErrorString(status));
}

template <typename T>
class DeviceBuffer {
  public:
    DeviceBuffer() = default;
    DeviceBuffer(const DeviceBuffer&) = delete;
    DeviceBuffer& operator=(const DeviceBuffer&) = delete;
    ~DeviceBuffer() { cudaFree(data_); }

    // At least `count` elements; what was in it is lost.
    T* reserve(std::size_t count) {
        if (count > capacity_) {
            cudaFree(data_);
            data_ = nullptr;
            require(cudaMalloc(&data_, count * sizeof(T)), "memory for a view");
            capacity_ = count;
        }
        return data_;
    }
    T* upload(const std::vector<T>& values) {
        reserve(values.size() + 1);
        require(cudaMemcpy(data_, values.data(), values.size() * sizeof(T), cudaMemcpyHostToDevice),
                "copying to the card");
        return data_;
    }
    void download(T* to, std::size_t count) const {
        require(cudaMemcpy(to, data_, count * sizeof(T), cudaMemcpyDeviceToHost),
                "copying from the card");
    }
    [[nodiscard]] T* data() const { return data_; }

  private:
    T* data_ = nullptr;
    std::size_t capacity_ = 0;
};

}  // namespace loafmark::training
